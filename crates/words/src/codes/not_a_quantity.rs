//! `not-a-quantity`

code! {
    "not-a-quantity"
    title: "This is not a number with a unit" | "Dies ist keine Zahl mit Einheit",
    message:
        "\"{key}\" is not a number with a unit: \"{written}\""
        | "„{key}“ ist keine Zahl mit Einheit: „{written}“",
    label: "expected {expected}" | "erwartet: {expected}",
    hint:
        "write <{suggestion}: >one number and a unit, in quotes"
        | "<{suggestion} schreiben: >eine Zahl und eine Einheit in Anführungszeichen",
    english:
        /// A quantity is a finite number and a unit, with or without a space between.
        ///
        /// Example: `length = "about 14 m"`. Write `length = "14 m"`.
    german:
        /// Eine Größe ist eine endliche Zahl und eine Einheit, mit oder ohne Leerzeichen dazwischen.
        ///
        /// Beispiel: `length = "about 14 m"`. Richtig ist `length = "14 m"`.
}
