//! `decimal-comma`

code! {
    "decimal-comma"
    title: "Write a decimal point, not a comma" | "Ein Dezimalpunkt, kein Komma",
    message:
        "\"{key}\" has a comma in its number: \"{written}\""
        | "„{key}“ hat ein Komma in der Zahl: „{written}“",
    label: "write a decimal point" | "einen Dezimalpunkt schreiben",
    hint: "<write {suggestion:or}, in quotes>" | "<{suggestion:or} in Anführungszeichen schreiben>",
    english:
        /// A comma may mean a decimal or a thousand, so it is refused, and what it may mean is shown.
        ///
        /// Example: `length = "1,5 m"`. Write `length = "1.5 m"`.
    german:
        /// Ein Komma kann Dezimalen oder Tausender meinen; darum wird es abgelehnt, und was es meinen kann, wird gezeigt.
        ///
        /// Beispiel: `length = "1,5 m"`. Richtig ist `length = "1.5 m"`.
}
