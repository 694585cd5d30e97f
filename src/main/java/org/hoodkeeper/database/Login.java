package org.hoodkeeper.database;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.Properties;

/** A database address with the role that signs in there. */
record Login(String url, String user, String password) {

    Connection connect() throws SQLException {
        Properties properties = new Properties();
        properties.setProperty("user", user);
        properties.setProperty("password", password);
        properties.setProperty("ApplicationName", "hoodkeeper-setup");
        return DriverManager.getConnection(url, properties);
    }

    /** Without the password, so that no log shows it. */
    @Override
    public String toString() {
        return user + " at " + url;
    }
}
