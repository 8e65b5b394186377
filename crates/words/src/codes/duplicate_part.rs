//! `duplicate-part`

code! {
    "duplicate-part"
    title: "A catalogue part is defined twice" | "Ein Katalogteil ist doppelt definiert",
    message:
        "the {kind} \"{name}\" is defined twice in the catalogues"
        | "„{name}“ ({kind}) ist in den Katalogen zweimal definiert",
    label: "defined again here" | "hier noch einmal definiert",
    hint:
        "add replaces = true if this one is to take the other's place, or rename it"
        | "replaces = true ergänzen, wenn dieses an die Stelle des anderen treten soll, oder umbenennen",
    english:
        /// Two catalogues define a part of the same name. If the later one is meant to take the place of the earlier, give it `replaces = true`; otherwise rename it. Both places are shown.
    german:
        /// Zwei Kataloge definieren ein Teil gleichen Namens. Soll das spätere an die Stelle des früheren treten, bekommt es `replaces = true`; sonst umbenennen. Beide Stellen werden gezeigt.
}
