//! `too-many-rows`

code! {
    "too-many-rows"
    title: "More rows than a survey has" | "Mehr Zeilen, als eine Aufnahme hat",
    message: "more than {limit} rows" | "Mehr als {limit} Zeilen",
    hint: "check that it is the right file, and that nothing is left far below the table" | "prüfen, ob es die richtige Datei ist und nichts weit unter der Tabelle steht",
    english:
        /// No building has so many dwellings or routes. The file is usually the wrong one, or a cell far below the others is not empty.
    german:
        /// Kein Gebäude hat so viele Wohnungen oder Wege. Meist ist es die falsche Datei, oder eine Zelle weit unter den anderen ist nicht leer.
}
