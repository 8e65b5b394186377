//! `port-needed`

code! {
    "port-needed"
    title: "A run that starts at a box must name the port" | "Ein Strang ab Verteiler muss den Abgang nennen",
    message:
        "the run starts at box {name} without saying at which port"
        | "Der Strang beginnt am Verteiler {name}, ohne den Abgang zu nennen",
    label: "port missing" | "Abgang fehlt",
    hint:
        "write {name}.1 for its first port; it has {ports:port|ports}"
        | "{name}.1 für seinen ersten Abgang schreiben; er hat {ports:Abgang|Abgänge}",
    english:
        /// A box has several ports, and which of them a run hangs on decides its current limit and its place on the wiring schedule.
        ///
        /// Example: `from = "D1"`. Write `from = "D1.1"`.
    german:
        /// Ein Verteiler hat mehrere Abgänge, und an welchem ein Strang hängt, entscheidet über seine Stromgrenze und seinen Platz im Klemmenplan.
        ///
        /// Beispiel: `from = "D1"`. Richtig ist `from = "D1.1"`.
}
