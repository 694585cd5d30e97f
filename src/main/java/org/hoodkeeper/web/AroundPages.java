package org.hoodkeeper.web;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Configuration;
import org.springframework.web.servlet.HandlerInterceptor;
import org.springframework.web.servlet.ModelAndView;
import org.springframework.web.servlet.config.annotation.InterceptorRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

/** Puts the {@link Surroundings} around every page and gathers what its forms refused. */
@Configuration(proxyBeanMethods = false)
class AroundPages implements WebMvcConfigurer, HandlerInterceptor {

    private final Surroundings surroundings;

    AroundPages(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    @Override
    public void addInterceptors(InterceptorRegistry registry) {
        registry.addInterceptor(this).excludePathPatterns("/css/**", "/img/**", "/js/**");
    }

    @Override
    public boolean preHandle(HttpServletRequest request, HttpServletResponse response, Object handler) {
        surroundings.putAround(request);
        return true;
    }

    @Override
    public void postHandle(
            HttpServletRequest request, HttpServletResponse response, Object handler, @Nullable ModelAndView page) {
        if (page != null && page.hasView()) {
            surroundings.putErrors(request, page.getModel());
        }
    }
}
