package org.hoodkeeper.database;

import org.springframework.boot.autoconfigure.EnableAutoConfiguration;
import org.springframework.context.annotation.Configuration;

/** The ground without any module on it. */
@Configuration(proxyBeanMethods = false)
@EnableAutoConfiguration
class OnlyDatabase {}
