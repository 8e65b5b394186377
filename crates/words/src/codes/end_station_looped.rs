//! `end-station-looped`

code! {
    "end-station-looped"
    title: "A cable goes on from a station that has one pair of terminals" | "Eine Leitung geht von einer Station mit nur einem Klemmenpaar weiter",
    short: "one pair of terminals" | "nur ein Klemmenpaar",
    message:
        "the cable goes on from {element} to {next}, but {model} has one pair of terminals"
        | "Von {element} geht die Leitung weiter nach {next}, aber {model} hat nur ein Klemmenpaar",
    label: "no second pair of terminals" | "kein zweites Klemmenpaar",
    hint:
        "put it at the end of the run, or take a model that loops through"
        | "ans Ende des Strangs setzen, oder ein Modell zum Durchschleifen nehmen",
    english:
        /// # What it checks
        /// That nothing goes on from a station that has one pair of terminals only
        /// (`loop_through = "end"`).
        ///
        /// # Why it matters
        /// There is no terminal for the outgoing pair. Two wires under one screw is how loose joints begin.
        ///
        /// # Example
        /// A door station that ends its run is listed in the middle of A-R4.
        ///
        /// # What to do
        /// Put it at the end of the run, or place a branch box before it.
    german:
        /// # Was geprüft wird
        /// Dass von einer Station mit nur einem Klemmenpaar nichts weitergeht (`loop_through = "end"`).
        ///
        /// # Warum es zählt
        /// Für das abgehende Paar gibt es keine Klemme. Zwei Drähte unter einer Schraube: So fangen lose
        /// Verbindungen an.
        ///
        /// # Beispiel
        /// Eine Türstation, die ihren Strang abschließt, steht mitten in A-R4.
        ///
        /// # Was zu tun ist
        /// Sie ans Ende des Strangs setzen, oder eine Abzweigdose davor.
}
