//! `length-missing`

code! {
    "length-missing"
    title: "The lengths of a run are not given" | "Die Längen eines Strangs sind nicht angegeben",
    message:
        "run {run} has no <lengths for its {sections:section|sections}><spacing for the {further:section|sections} after its first><. They do not follow from its measured loop of {loop}: joints and terminals alone have {joints}>"
        | "Strang {run} hat <keine Längen für {sections:Abschnitt|Abschnitte}><kein spacing für {further:Abschnitt|Abschnitte} nach seinem ersten><, und seine gemessene Schleife von {loop} lässt der Leitung nichts: Klemmen und Verbindungen allein haben {joints}>",
    hint:
        "<give {one_way} for one section, lengths for each, or first and spacing; or the measured loop, from which the length follows><add spacing, the length from stop to stop, for the {further:section|sections} after first; or give lengths, one for each>"
        | "<{one_way} für einen Abschnitt angeben, lengths für jeden, oder first und spacing; oder die gemessene Schleife, aus der die Länge folgt><spacing ergänzen, die Länge von Halt zu Halt, für {further:Abschnitt|Abschnitte} nach first; oder lengths, eine für jeden>",
    english:
        /// Without its lengths nothing can be said about a run. Give `length` for one section, `lengths` for each, or `first` and `spacing`.
        ///
        /// Where nobody knows the length of a cable in the wall, measure its loop and write `measured = { loop = "4.2 ohm" }`: the length
        /// then follows from the cable.
    german:
        /// Ohne seine Längen lässt sich über einen Strang nichts sagen. `length` für einen Abschnitt angeben, `lengths` für jeden, oder `first` und `spacing`.
        ///
        /// Wo niemand die Länge einer Leitung in der Wand kennt, die Schleife messen und `measured = { loop = "4.2 ohm" }` eintragen: die
        /// Länge folgt dann aus der Leitung.
}
