package org.hoodkeeper.store;

import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.kernel.ModelId;

/** A model as the store knows it. @param data what its maker says of it now */
public record ShelfModel(ModelId id, String code, ModelData data) {}
