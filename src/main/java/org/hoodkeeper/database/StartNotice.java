package org.hoodkeeper.database;

import java.util.List;

/** Lines for the person who started the service, printed once it answers: demo sign-ins, a one-time link. */
public interface StartNotice {

    /**
     * @param address where the service answers, without a slash at its end
     * @return plain lines, none when there is nothing to say
     */
    List<String> lines(String address);
}
