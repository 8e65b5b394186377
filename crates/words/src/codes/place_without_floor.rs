//! `place-without-floor`

code! {
    "place-without-floor"
    title: "A place in a building has no floor" | "Ein Ort in einem Gebäude hat kein Geschoss",
    message: "the place {element} has a building and no floor" | "Der Ort {element} hat ein Gebäude und kein Geschoss",
    english:
        /// Without its floor a place stands on the lowest line of the drawings, and lists that go floor by floor cannot hold its dwellings.
        ///
        /// Write the floor.
    german:
        /// Ohne sein Geschoss steht ein Ort in den Zeichnungen auf der untersten Linie, und Listen nach Geschossen können seine Wohnungen nicht
        /// einordnen.
        ///
        /// Das Geschoss schreiben.
}
