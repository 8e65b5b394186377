//! `duplicate-name`

code! {
    "duplicate-name"
    title: "Two things on site have the same name" | "Zwei Dinge haben denselben Namen",
    message:
        "\"{name}\" is the name of two things: {kind:a} and {other_kind:a}"
        | "„{name}“ ist der Name zweier Dinge: {kind} und {other_kind}",
    label: "this is the second" | "dies ist das zweite",
    hint:
        "rename one of them; runs refer to things by name alone<; {wanted} is used and defined nowhere: is the second to be this?>"
        | "eines umbenennen; Stränge nennen Dinge nur beim Namen<; {wanted} wird verwendet und ist nirgends definiert: soll das zweite so heißen?>",
    english:
        /// Supplies, boxes, entrances, dwellings and management stations share one set of names, because runs refer to them by name alone.
        ///
        /// Example: a dwelling A-1 and a branch box A-1. Rename one of them; both places are shown.
    german:
        /// Netzteile, Verteiler, Eingänge, Wohnungen und Zentralen teilen sich einen Vorrat von Namen, denn Stränge nennen sie nur beim Namen.
        ///
        /// Beispiel: eine Wohnung A-1 und eine Abzweigdose A-1. Eines umbenennen; beide Stellen werden gezeigt.
}
