//! `formula-without-value`

code! {
    "formula-without-value"
    title: "A formula has no value" | "Eine Formel hat keinen Wert",
    message:
        "<{column}: >the formula has no value ({fault})"
        | "<{column}: >die Formel hat keinen Wert ({fault})",
    hint: "mend it or type the value" | "berichtigen oder den Wert eintippen",
    english:
        /// The cell holds a formula whose result is an error. Mend it, or type the value.
    german:
        /// Die Zelle enthält eine Formel, deren Ergebnis ein Fehler ist. Berichtigen oder den Wert eintippen.
}
