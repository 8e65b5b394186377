//! `drop-column-missing`

code! {
    "drop-column-missing"
    title: "A sheet has no column of drops" | "Ein Blatt hat keine Spalte für Stiche",
    message:
        "the sheet \"{sheet}\" has no column \"Drop\": every drop of it counts as 0 m"
        | "Das Blatt „{sheet}“ hat keine Spalte „Drop“: Jeder Stich darauf zählt als 0 m",
    hint:
        "add the column, with the length in metres in each row, 0 where the station hangs at its place"
        | "die Spalte ergänzen, in jeder Zeile mit der Länge in Metern, 0, wo die Station am Ort selbst hängt",
    english:
        /// Without lengths of drops no cable is counted from any place to its station. Some metres at every station are missing in voltage, signal,
        /// cable list and price.
        ///
        /// Add the column, spelt as in the template, with a length in each row; 0 where the station hangs at the place itself.
    german:
        /// Ohne Längen der Stiche zählt von keinem Ort zu seiner Station eine Leitung. Einige Meter an jeder Station fehlen dann in Spannung, Signal,
        /// Leitungsliste und Preis.
        ///
        /// Die Spalte ergänzen, geschrieben wie in der Vorlage, mit einer Länge in jeder Zeile; 0, wo die Station am Ort selbst hängt.
}
