//! `cell-empty`

code! {
    "cell-empty"
    title: "A cell that must be filled is empty" | "Eine Zelle, die gefüllt sein muss, ist leer",
    message: "\"{column}\" must be filled in" | "„{column}“ muss ausgefüllt sein",
    hint: "fill it in, or clear the row" | "ausfüllen oder die Zeile leeren",
    english:
        /// Every row needs a value in this column.
        ///
        /// Fill it in, or clear the whole row.
    german:
        /// Jede Zeile braucht einen Wert in dieser Spalte.
        ///
        /// Ausfüllen oder die ganze Zeile leeren.
}
