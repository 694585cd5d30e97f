package org.hoodkeeper;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noMethods;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import jakarta.persistence.Entity;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZonedDateTime;
import java.util.Locale;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;
import org.springframework.modulith.core.ApplicationModules;
import org.springframework.web.bind.annotation.RequestMapping;

/** What may lean on what. Each rule is tried on a class that breaks it, so that none passes for want of subjects. */
class ArchitectureTests {

    private static final JavaClasses OURS = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("org.hoodkeeper");

    private static final String[] PLAIN = {
        "org.hoodkeeper.kernel..",
        "org.hoodkeeper.calculation..",
        "org.hoodkeeper.facts..",
        "org.hoodkeeper.rules..",
        "org.hoodkeeper.assessment..",
        "org.hoodkeeper.breaking.."
    };

    private static final ArchRule PLAIN_IN_THE_MIDDLE = noClasses()
            .that()
            .resideInAnyPackage(PLAIN)
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(
                    "org.springframework.jdbc..",
                    "org.springframework.context..",
                    "org.springframework.stereotype..",
                    "org.springframework.transaction..",
                    "org.springframework.data..",
                    "org.springframework.web..",
                    "jakarta..",
                    "org.hibernate..",
                    "java.sql..")
            .because("the judgement and the calculations are ordinary Java: move what needs a framework to the edge");

    private static final ArchRule NO_LOCALE_NO_CLOCK = noClasses()
            .that()
            .resideInAnyPackage(PLAIN)
            .should()
            .dependOnClassesThat()
            .belongToAnyOf(Locale.class, java.time.Clock.class)
            .because("a moment is an argument and words live in the bundles: return codes and figures");

    private static final ArchRule NOBODY_CALLS_NOW = noClasses()
            .should()
            .callMethod(Instant.class, "now")
            .orShould()
            .callMethod(LocalDate.class, "now")
            .orShould()
            .callMethod(LocalDateTime.class, "now")
            .orShould()
            .callMethod(OffsetDateTime.class, "now")
            .orShould()
            .callMethod(ZonedDateTime.class, "now")
            .orShould()
            .callMethod(System.class, "currentTimeMillis")
            .because("the date is an argument: ask the one Clock bean, at the edge");

    private static final ArchRule NO_ENTITY_IN_A_CONTROLLER = noMethods()
            .that()
            .areMetaAnnotatedWith(RequestMapping.class)
            .should(haveAnEntityAsArgument())
            .because("an entity is never a form: give the page its own record");

    private static final ArchRule WHAT_PAGES_READ_IS_PUBLIC = classes()
            .that()
            .resideInAnyPackage("org.hoodkeeper.web..", "org.hoodkeeper.breaking..")
            .and()
            .areRecords()
            .and()
            .areNotPrivate()
            .should()
            .bePublic()
            .because(
                    "an expression of a page is compiled only over public types: others are looked up at each reading");

    private static com.tngtech.archunit.lang.ArchCondition<com.tngtech.archunit.core.domain.JavaMethod>
            haveAnEntityAsArgument() {
        return new com.tngtech.archunit.lang.ArchCondition<>("take an entity as argument") {
            @Override
            public void check(
                    com.tngtech.archunit.core.domain.JavaMethod method,
                    com.tngtech.archunit.lang.ConditionEvents events) {
                for (JavaClass argument : method.getRawParameterTypes()) {
                    if (argument.isAnnotatedWith(Entity.class)) {
                        events.add(com.tngtech.archunit.lang.SimpleConditionEvent.satisfied(
                                method, method.getFullName() + " takes " + argument.getName()));
                    }
                }
            }
        };
    }

    @Test
    void modulesLeanOnlyOnWhatTheyDeclare() {
        ApplicationModules.of(Hoodkeeper.class).verify();
    }

    @Test
    void theMiddleIsPlain() {
        PLAIN_IN_THE_MIDDLE.check(OURS);
        NO_LOCALE_NO_CLOCK.check(OURS);
        refuses(PLAIN_IN_THE_MIDDLE, org.hoodkeeper.breaking.NotPlain.class);
        refuses(NO_LOCALE_NO_CLOCK, org.hoodkeeper.breaking.NotPlain.class);
    }

    @Test
    void theDateIsAnArgument() {
        NOBODY_CALLS_NOW.check(OURS);
        refuses(NOBODY_CALLS_NOW, org.hoodkeeper.breaking.NotPlain.class);
    }

    @Test
    void anEntityIsNeverAForm() {
        NO_ENTITY_IN_A_CONTROLLER.check(OURS);
        refuses(NO_ENTITY_IN_A_CONTROLLER, org.hoodkeeper.breaking.NotPlain.class);
    }

    @Test
    void whatAPageReadsIsPublic() {
        WHAT_PAGES_READ_IS_PUBLIC.check(OURS);
        refuses(WHAT_PAGES_READ_IS_PUBLIC, org.hoodkeeper.breaking.NotPlain.class);
    }

    private static void refuses(ArchRule rule, Class<?> breaking) {
        JavaClasses broken = new ClassFileImporter().importPackagesOf(breaking);
        Assertions.assertThat(rule.evaluate(broken).hasViolation())
                .as("a rule that lets " + breaking.getSimpleName() + " pass guards nothing: " + rule.getDescription())
                .isTrue();
    }
}
