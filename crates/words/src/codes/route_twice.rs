//! `route-twice`

code! {
    "route-twice"
    title: "Two routes join the same places" | "Zwei Wege verbinden dieselben Orte",
    message: "row {row} has a route from {from} to {to} already; cables take the shorter" | "Zeile {row} hat schon einen Weg von {from} nach {to}; Leitungen nehmen den kürzeren",
    english:
        /// Two rows join the same two places. Where there are two ways, that is right, and cables take the shorter one. Where the row was entered
        /// twice with two lengths, one of them is wrong.
        ///
        /// Keep the one that holds.
    german:
        /// Zwei Zeilen verbinden dieselben zwei Orte. Gibt es zwei Wege, ist das richtig, und Leitungen nehmen den kürzeren. Wurde die Zeile zweimal
        /// mit zwei Längen eingetragen, ist eine davon falsch.
        ///
        /// Die behalten, die gilt.
}
