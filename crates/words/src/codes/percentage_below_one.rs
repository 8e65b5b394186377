//! `percentage-below-one`

code! {
    "percentage-below-one"
    title: "Less than one per cent" | "Weniger als ein Prozent",
    message: "{found} is taken as {found} %" | "{found} gilt als {found} %",
    hint: "write 5 for five per cent" | "für fünf Prozent 5 schreiben",
    english:
        /// The column holds per cent, and this is less than one. A spreadsheet keeps what is typed as 5 % as 0.05, which is then read as 0.05 %.
        ///
        /// Example: 0.05. Write 5 for five per cent, in a cell without the format of percentages.
    german:
        /// Die Spalte enthält Prozent, und dies ist weniger als eins. Eine Tabellenkalkulation speichert, was als 5 % getippt wird, als 0,05; das
        /// wird dann als 0,05 % gelesen.
        ///
        /// Beispiel: 0,05. Für fünf Prozent 5 schreiben, in einer Zelle ohne Prozentformat.
}
