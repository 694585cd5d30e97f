package org.hoodkeeper.assessment;

import java.util.List;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.ModelId;

/** What is known of a model. @param code as printed on labels; the scope of trainings */
public record ModelFile(ModelId id, String code, List<Told<ModelData>> data) {}
