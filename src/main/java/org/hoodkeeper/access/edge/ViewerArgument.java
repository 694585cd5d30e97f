package org.hoodkeeper.access.edge;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Optional;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Viewer;
import org.jspecify.annotations.Nullable;
import org.springframework.core.MethodParameter;
import org.springframework.stereotype.Component;
import org.springframework.web.bind.support.WebDataBinderFactory;
import org.springframework.web.context.request.NativeWebRequest;
import org.springframework.web.method.support.HandlerMethodArgumentResolver;
import org.springframework.web.method.support.ModelAndViewContainer;

/** Gives a page of a site its {@link Viewer} or its {@link Visit}, as the gate has found them. */
@Component
class ViewerArgument implements HandlerMethodArgumentResolver {

    @Override
    public boolean supportsParameter(MethodParameter parameter) {
        return parameter.getParameterType() == Viewer.class || parameter.getParameterType() == Visit.class;
    }

    @Override
    public Object resolveArgument(
            MethodParameter parameter,
            @Nullable ModelAndViewContainer page,
            NativeWebRequest request,
            @Nullable WebDataBinderFactory binder) {
        Visit visit = Optional.ofNullable(request.getNativeRequest(HttpServletRequest.class))
                .flatMap(Visit::of)
                .orElseThrow(() -> new IllegalStateException(
                        parameter.getExecutable() + " asks who visits but has no {site} in its address"));
        return parameter.getParameterType() == Visit.class ? visit : visit.viewer();
    }
}
