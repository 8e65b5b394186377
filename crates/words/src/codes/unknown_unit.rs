//! `unknown-unit`

code! {
    "unknown-unit"
    title: "This unit is not known" | "Diese Einheit ist nicht bekannt",
    message: "\"{unit}\" is not a unit for \"{key}\"" | "„{unit}“ ist keine Einheit für „{key}“",
    label: "expected {expected}" | "erwartet: {expected}",
    hint:
        "<did you mean {nearest:or}? ><{written} is {metres} ({one} exactly, NIST SP 811). >accepted units: {units}"
        | "<gemeint {nearest:or}? ><{written} sind {metres} ({one} genau, NIST SP 811). >erlaubte Einheiten: {units}",
    english:
        /// Units are written as in the standards, and case matters: mW is not MW. The accepted units are shown.
        ///
        /// Example: `"14 mtr"`. Write `"14 m"`.
    german:
        /// Einheiten werden wie in den Normen geschrieben, und Groß und Klein zählt: mW ist nicht MW. Die erlaubten Einheiten werden gezeigt.
        ///
        /// Beispiel: `"14 mtr"`. Richtig ist `"14 m"`.
}
