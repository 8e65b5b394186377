//! `column-missing`

code! {
    "column-missing"
    title: "A column is missing" | "Eine Spalte fehlt",
    message:
        "the sheet \"{sheet}\" has no column \"{column}\""
        | "Das Blatt „{sheet}“ hat keine Spalte „{column}“",
    hint: "add the column" | "die Spalte ergänzen",
    english:
        /// Columns are found by their headings, in any order. The sheet has none that means this one.
        ///
        /// Add the heading, spelt as in the template.
    german:
        /// Spalten werden an ihren Überschriften erkannt, in beliebiger Reihenfolge. Das Blatt hat keine, die diese meint.
        ///
        /// Die Überschrift ergänzen, geschrieben wie in der Vorlage.
}
