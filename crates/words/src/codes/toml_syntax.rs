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
        /// The file is written in TOML 1.1. The reader goes on after a mistake, so one missing quote or bracket can bring a second message on the next line; mend the first one first.
        ///
        /// Example: `length = "14 m` lacks its closing quote. Write `length = "14 m"`.
    german:
        /// Die Datei ist in TOML 1.1 geschrieben. Nach einem Fehler wird weitergelesen, darum kann ein fehlendes Anführungszeichen oder eine fehlende Klammer in der nächsten Zeile eine zweite Meldung bringen; den ersten zuerst beheben.
        ///
        /// Beispiel: Bei `length = "14 m` fehlt das schließende Anführungszeichen. Richtig ist `length = "14 m"`.
}
