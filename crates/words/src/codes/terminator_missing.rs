//! `terminator-missing`

code! {
    "terminator-missing"
    title: "The last station of a chain has no terminator" | "Die letzte Station einer Kette hat keinen Abschluss",
    short: "terminator missing" | "Abschluss fehlt",
    message:
        "{station}, the last on run {element}, has no terminator; the family {family} needs one"
        | "{station}, die letzte am Strang {element}, hat keinen Abschluss; die Gerätefamilie {family} braucht einen",
    hint:
        "<set the terminator on {station} and write terminator = true>"
        | "<den Abschluss an {station} setzen und terminator = true eintragen>",
    measure:
        "With the power off, look at the last station of the chain: its terminator must be set, and no other on the chain."
        | "Spannungsfrei an der letzten Station der Kette nachsehen: Ihr Abschluss muss gesetzt sein, und kein anderer an der Kette.",
    english:
        /// # What it checks
        /// In a family that needs terminators (`terminator_required = true`), that the run to the last
        /// station of every chain has `terminator = true`. A branched chain has an end on each branch.
        /// Where the run does not say whether one is set, this is not judged.
        ///
        /// # Why it matters
        /// At an open end the signal is reflected: pictures show ghosts or tear, data calls get lost, and
        /// which station suffers depends on the length of the cable. Every voltage is right.
        ///
        /// # Example
        /// A-R3 ends at A-304 with `terminator = false`.
        ///
        /// # What to do
        /// Set the terminator on the last station of the chain and say so in the run that leads to it.
    german:
        /// # Was geprüft wird
        /// In einer Gerätefamilie, die Abschlüsse braucht (`terminator_required = true`): dass der Strang zur
        /// letzten Station jeder Kette `terminator = true` hat. Eine verzweigte Kette hat an jedem Zweig ein Ende.
        /// Wo der Strang nicht sagt, ob einer gesetzt ist, wird das nicht beurteilt.
        ///
        /// # Warum es zählt
        /// An einem offenen Ende wird das Signal reflektiert: Bilder zeigen Geister oder zerreißen, Daten gehen
        /// verloren, und welche Station leidet, hängt von der Länge der Leitung ab. Jede Spannung stimmt.
        ///
        /// # Beispiel
        /// A-R3 endet an A-304 mit `terminator = false`.
        ///
        /// # Was zu tun ist
        /// Den Abschluss an der letzten Station der Kette setzen und im Strang angeben, der zu ihr führt.
}
