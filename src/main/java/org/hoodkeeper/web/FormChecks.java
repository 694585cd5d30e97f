package org.hoodkeeper.web;

import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.annotation.Configuration;
import org.springframework.validation.Errors;
import org.springframework.validation.SmartValidator;
import org.springframework.validation.Validator;
import org.springframework.validation.beanvalidation.SpringValidatorAdapter;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

/**
 * Checks a form record whole even when one of its fields could not be read, so that a person sees all that is wrong at
 * once. The framework's own wrapper cannot check single values and then leaves the other fields unchecked.
 */
@Configuration(proxyBeanMethods = false)
class FormChecks implements WebMvcConfigurer {

    private final ObjectProvider<jakarta.validation.Validator> validator;

    FormChecks(ObjectProvider<jakarta.validation.Validator> validator) {
        this.validator = validator;
    }

    @Override
    public Validator getValidator() {
        return new Each(new SpringValidatorAdapter(validator.getObject()));
    }

    private record Each(SpringValidatorAdapter checks) implements SmartValidator {

        @Override
        public boolean supports(Class<?> type) {
            return checks.supports(type);
        }

        @Override
        public void validate(Object target, Errors errors) {
            checks.validate(target, errors);
        }

        @Override
        public void validate(Object target, Errors errors, @Nullable Object... hints) {
            checks.validate(target, errors, hints);
        }

        @Override
        public void validateValue(
                Class<?> type,
                @Nullable String field,
                @Nullable Object value,
                Errors errors,
                @Nullable Object... hints) {
            checks.validateValue(type, field, value, errors, hints);
        }
    }
}
