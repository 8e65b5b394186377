//! `unit-missing`

code! {
    "unit-missing"
    title: "The unit is missing" | "Die Einheit fehlt",
    message: "\"{key}\" has no unit: {written}" | "„{key}“ hat keine Einheit: {written}",
    label: "expected {expected}" | "erwartet: {expected}",
    hint:
        "write the number with one of these units, in quotes: {units}"
        | "die Zahl mit einer dieser Einheiten in Anführungszeichen schreiben: {units}",
    english:
        /// A bare number does not say whether it means metres or feet. Plain numbers are accepted only where something is counted.
        ///
        /// Example: `length = 14`. Write `length = "14 m"`.
    german:
        /// Eine bloße Zahl sagt nicht, ob sie Meter oder Fuß meint. Zahlen ohne Einheit gelten nur, wo etwas gezählt wird.
        ///
        /// Beispiel: `length = 14`. Richtig ist `length = "14 m"`.
}
