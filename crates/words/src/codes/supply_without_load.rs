//! `supply-without-load`

code! {
    "supply-without-load"
    title: "A supply feeds nothing" | "Ein Netzteil speist nichts",
    short: "feeds nothing" | "speist nichts",
    message: "supply {element} feeds nothing" | "Netzteil {element} speist nichts",
    label: "no run starts here" | "hier beginnt kein Strang",
    hint: "wire it, or remove it" | "verdrahten oder entfernen",
    english:
        /// # What it checks
        /// Supplies at which no run starts.
        ///
        /// # Why it matters
        /// The parts list would hold a supply that does nothing, or a run is missing.
        ///
        /// # Example
        /// A-PS2 is listed, but every distributor is fed from A-PS1.
        ///
        /// # What to do
        /// Wire it or remove it. One that is kept as a spare is accepted with a reason.
    german:
        /// # Was geprüft wird
        /// Netzteile, an denen kein Strang beginnt.
        ///
        /// # Warum es zählt
        /// In der Stückliste stünde ein Netzteil, das nichts tut, oder es fehlt ein Strang.
        ///
        /// # Beispiel
        /// A-PS2 ist aufgeführt, aber jeder Verteiler wird von A-PS1 gespeist.
        ///
        /// # Was zu tun ist
        /// Es verdrahten oder entfernen. Eines, das als Ersatz liegt, wird mit Begründung akzeptiert.
}
