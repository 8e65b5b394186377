//! `out-of-range`

code! {
    "out-of-range"
    title: "The value lies outside the accepted range" | "Der Wert liegt außerhalb des zulässigen Bereichs",
    message:
        "\"{key}\" is outside the accepted range: {written}"
        | "„{key}“ liegt außerhalb des zulässigen Bereichs: {written}",
    label: "expected {expected}" | "erwartet: {expected}",
    hint: "check the sign, the unit and the decimal point" | "Vorzeichen, Einheit und Dezimalpunkt prüfen",
    english:
        /// Ranges are wide: a value outside is negative, zero where that has no meaning, or a slip of unit or decimal point.
        ///
        /// Example: `length = "0 m"`, or `voltage = "4800 V"`.
    german:
        /// Die Bereiche sind weit: Ein Wert außerhalb ist negativ, null, wo das keinen Sinn hat, oder ein Versehen bei Einheit oder Dezimalpunkt.
        ///
        /// Beispiel: `length = "0 m"` oder `voltage = "4800 V"`.
}
