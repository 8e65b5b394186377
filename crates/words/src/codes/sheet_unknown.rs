//! `sheet-unknown`

code! {
    "sheet-unknown"
    title: "A sheet is not used" | "Ein Blatt wird nicht verwendet",
    message: "the sheet \"{sheet}\" is not used" | "Das Blatt „{sheet}“ wird nicht verwendet",
    hint: "<did you mean {nearest:or}?>" | "<gemeint {nearest:or}?>",
    english:
        /// The sheet has no name that a survey knows, so nothing on it is read.
        ///
        /// Name it as in the template, or leave it if it is a sheet of your own.
    german:
        /// Das Blatt hat keinen Namen, den eine Aufnahme kennt, also wird nichts darauf gelesen.
        ///
        /// Wie in der Vorlage nennen, oder stehen lassen, wenn es ein eigenes Blatt ist.
}
