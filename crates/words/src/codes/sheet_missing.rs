//! `sheet-missing`

code! {
    "sheet-missing"
    title: "A sheet is missing or has no rows" | "Ein Blatt fehlt oder hat keine Zeilen",
    message:
        "the sheet \"{sheet}\" is missing or has no rows"
        | "Das Blatt „{sheet}“ fehlt oder hat keine Zeilen",
    hint: "see the template of: latchline new --survey" | "siehe die Vorlage von: latchline new --survey",
    english:
        /// Without this sheet nothing can be designed.
        ///
        /// The template of latchline new --survey has every sheet.
    german:
        /// Ohne dieses Blatt ist nichts zu entwerfen.
        ///
        /// Die Vorlage von latchline new --survey enthält jedes Blatt.
}
