package org.hoodkeeper.web;

import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.springframework.boot.webmvc.error.ErrorController;
import org.springframework.core.MethodParameter;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.method.HandlerMethod;
import org.springframework.web.servlet.mvc.method.annotation.RequestMappingHandlerMapping;

/** Every page there is, as the service itself knows them, so that a new one cannot be forgotten by a walk over all. */
final class Mappings {

    private Mappings() {}

    record Route(String pattern, String method) {
        @Override
        public String toString() {
            return method + " " + pattern;
        }
    }

    /** In the order of their addresses. */
    static Map<Route, HandlerMethod> handlers(RequestMappingHandlerMapping mappings) {
        Map<Route, HandlerMethod> found = new LinkedHashMap<>();
        List<Map.Entry<String, Map.Entry<Route, HandlerMethod>>> sorted = new ArrayList<>();
        mappings.getHandlerMethods().forEach((info, handler) -> {
            if (!ErrorController.class.isAssignableFrom(handler.getBeanType())) {
                info.getPatternValues()
                        .forEach(pattern -> info.getMethodsCondition()
                                .getMethods()
                                .forEach(method -> sorted.add(Map.entry(
                                        pattern + method, Map.entry(new Route(pattern, method.name()), handler)))));
            }
        });
        sorted.sort(Map.Entry.comparingByKey());
        sorted.forEach(one -> found.put(one.getValue().getKey(), one.getValue().getValue()));
        return found;
    }

    /** What a page takes beside its address: names and types, of a list the type of its elements. */
    static Map<String, Class<?>> fields(HandlerMethod handler) {
        Map<String, Class<?>> fields = new LinkedHashMap<>();
        for (MethodParameter parameter : handler.getMethodParameters()) {
            MethodParameter here = parameter.withContainingClass(handler.getBeanType());
            Class<?> type = here.getParameterType();
            if (here.hasParameterAnnotation(RequestParam.class)) {
                fields.put(here.getParameter().getName(), type);
            } else if (type.isRecord() && type.getSimpleName().endsWith("Form")) {
                for (RecordComponent component : type.getRecordComponents()) {
                    Class<?> of = component.getType();
                    if (of == List.class
                            && component.getGenericType() instanceof ParameterizedType list
                            && list.getActualTypeArguments()[0] instanceof Class<?> element) {
                        of = element;
                    }
                    fields.put(component.getName(), of);
                }
            }
        }
        return fields;
    }
}
