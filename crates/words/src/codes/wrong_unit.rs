//! `wrong-unit`

code! {
    "wrong-unit"
    title: "The unit measures something else" | "Die Einheit misst etwas anderes",
    message:
        "\"{key}\" is given in a unit of {found}: \"{written}\""
        | "„{key}“ steht in einer Einheit für {found}: „{written}“",
    label: "expected {expected}" | "erwartet: {expected}",
    hint: "accepted units: {units}" | "erlaubte Einheiten: {units}",
    english:
        /// The key wants another kind of quantity than the unit gives.
        ///
        /// Example: `length = "14 V"`. `found` says what the unit measures.
    german:
        /// Der Schlüssel will eine andere Größe, als die Einheit misst.
        ///
        /// Beispiel: `length = "14 V"`. `found` sagt, was die Einheit misst.
}
