package org.hoodkeeper.evidence;

import static org.hoodkeeper.evidence.Shape.name;
import static org.hoodkeeper.evidence.Shape.positive;
import static org.hoodkeeper.evidence.Shape.present;
import static org.hoodkeeper.evidence.Shape.within;

import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.PartCare;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/** Shapes of what a maker says of a model, and of what a set is. */
final class ModelShapes {

    private ModelShapes() {}

    static void model(ModelData model) {
        present(model.name(), "model.name.missing");
        name(model.name(), "name");
        present(model.type(), "model.type.missing");
        model.sizes().forEach(size -> variantPart(size, "model.sizes.form"));
        variantPart(model.sealRevision(), "model.sealRevision.form");
        present(model.flowAt(), "model.flowAt.missing");
        if (model.type().hasFlow()) {
            present(model.minimumFlow(), "model.minimumFlow.missing");
        } else if (model.minimumFlow() != null) {
            throw new Refused("model.minimumFlow.noFlow", model.type());
        }
        within(model.minimumFlow(), "1", "600", "model.minimumFlow.range");
        within(model.batteryMinutes(), 1, 2_880, "model.batteryMinutes.range");
        within(model.maxWashCelsius(), "0", "100", "model.maxWashCelsius.range");
        model.products().forEach(ModelShapes::product);
        for (ModelData.Slot slot : model.slots()) {
            present(slot.name(), "model.slots.name");
            within(slot.lifeMonths(), 1, 600, "model.slots.lifeMonths");
            if (slot.care() != null) {
                care(slot.care());
            }
        }
    }

    private static void care(PartCare care) {
        within(care.maxCelsius(), "0", "140", "model.slots.maxCelsius");
        within(care.cycles(), 1, 10_000, "model.slots.cycles");
        care.products().forEach(one -> within(one.longest(), 1, 86_400, "model.slots.longest"));
    }

    private static void product(ModelData.Product product) {
        present(product.code(), "model.products.code");
        present(product.basis(), "model.products.basis");
        present(product.strength(), "model.products.strength");
        positive(product.strength(), "1000000", "model.products.strengthRange");
        within(product.wetSeconds(), 1, 86_400, "model.products.wetSeconds");
    }

    static void set(SetData set) {
        variantPart(set.size(), "set.size.form");
        variantPart(set.sealRevision(), "set.sealRevision.form");
        name(set.store(), "store");
        name(set.serial(), "serial");
    }

    /** Size and seal revision are parts of a variant's name, where a slash parts them. */
    private static void variantPart(@Nullable String text, String code) {
        if (text == null || text.isBlank() || text.indexOf('/') >= 0 || text.length() > 40) {
            throw new Refused(code, text);
        }
    }
}
