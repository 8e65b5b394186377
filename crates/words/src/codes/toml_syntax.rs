//! `toml-syntax`

code! {
    "toml-syntax"
    title: "This is not valid TOML" | "Dies ist kein gültiges TOML",
    message: "not valid TOML: {detail}" | "Kein gültiges TOML: {detail}",
    label: "here" | "hier",
    hint:
        "<write it in quotes: {quoted}><close it on this line: {closing} is missing>"
        | "<in Anführungszeichen schreiben: {quoted}><in dieser Zeile schließen: Es fehlt {closing}>",
    english:
        /// The file is written in TOML 1.1. The reader goes on after a mistake: what is left open in one row ends with that row, and all other rows are read. In the row itself only the first mistake is told.
        ///
        /// Example: `length = "14 m` lacks its closing quote. Write `length = "14 m"`.
    german:
        /// Die Datei ist in TOML 1.1 geschrieben. Nach einem Fehler wird weitergelesen: Was in einer Zeile offen bleibt, endet mit ihr, und alle anderen werden gelesen. In der Zeile selbst wird nur der erste Fehler genannt.
        ///
        /// Beispiel: Bei `length = "14 m` fehlt das schließende Anführungszeichen. Richtig ist `length = "14 m"`.
}
