//! `part-cable-twice`

code! {
    "part-cable-twice"
    title: "Two cables to one part of a lock's circuit" | "Zwei Leitungen zu einem Teil des Schlosskreises",
    message: "{name} has two cables to its {part}" | "{name} hat zwei Leitungen zu „{part}“",
    hint: "keep one of the two" | "eine von beiden behalten",
    english:
        /// Each part of a lock's circuit hangs on one cable: with two it would stay open which of them the wiring schedule means.
        ///
        /// Remove one of the entries in `cables`, or correct what it leads to (`to`).
    german:
        /// Jeder Teil des Schlosskreises hängt an einer Leitung: bei zweien bliebe offen, welche der Verdrahtungsplan meint.
        ///
        /// Einen der Einträge in `cables` entfernen, oder berichtigen, wohin er führt (`to`).
}
