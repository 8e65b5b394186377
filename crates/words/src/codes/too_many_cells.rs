//! `too-many-cells`

code! {
    "too-many-cells"
    title: "More cells than a survey has" | "Mehr Zellen, als eine Aufnahme hat",
    message: "more than {limit} cells" | "Mehr als {limit} Zellen",
    hint: "check that it is the right file" | "prüfen, ob es die richtige Datei ist",
    english:
        /// The sheets hold more cells, or more text in them, than any building needs. The file is usually the wrong one.
    german:
        /// Die Blätter enthalten mehr Zellen oder mehr Text darin, als ein Gebäude braucht. Meist ist es die falsche Datei.
}
