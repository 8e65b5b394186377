//! `length-missing`

code! {
    "length-missing"
    title: "The lengths of a run are not given" | "Längen eines Strangs fehlen",
    message:
        "run {run} has no lengths for its {sections:section|sections}"
        | "Strang {run} hat keine Längen für {sections:Abschnitt|Abschnitte}",
    hint:
        "give length for one section, lengths for each, or first and spacing"
        | "length für einen Abschnitt angeben, lengths für jeden, oder first und spacing",
    english:
        /// Without its lengths nothing can be said about a run. Give `length` for one section, `lengths` for each, or `first` and `spacing`.
    german:
        /// Ohne seine Längen lässt sich über einen Strang nichts sagen. `length` für einen Abschnitt angeben, `lengths` für jeden, oder `first` und `spacing`.
}
