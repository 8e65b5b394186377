//! `lengths-do-not-fit`

code! {
    "lengths-do-not-fit"
    title: "The number of lengths does not fit the stops" | "Anzahl der Längen passt nicht zu den Halten",
    message:
        "run {run} has {lengths:length|lengths} for {sections:section|sections}"
        | "Strang {run} hat {lengths:Länge|Längen} für {sections:Abschnitt|Abschnitte}",
    label: "{sections:length is|lengths are} needed" | "nötig: {sections:Länge|Längen}",
    hint: "give one length for each stop, in order" | "für jeden Halt eine Länge angeben, der Reihe nach",
    english:
        /// A run with three stops has three sections: to the first, from the first to the second, and so on.
        ///
        /// Example: `to = ["A-1", "A-2"], lengths = ["9 m"]`. Add the second length. `length` fits a run of one section only; use `lengths`, or `first` and `spacing`.
    german:
        /// Ein Strang mit drei Halten hat drei Abschnitte: zum ersten, vom ersten zum zweiten, und so weiter.
        ///
        /// Beispiel: `to = ["A-1", "A-2"], lengths = ["9 m"]`. Die zweite Länge ergänzen. `length` passt nur zu einem Strang mit einem Abschnitt; sonst `lengths`, oder `first` und `spacing`.
}
