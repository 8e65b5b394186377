//! `too-many-buildings`

code! {
    "too-many-buildings"
    title: "More buildings than the family can number" | "Mehr Gebäude, als die Familie nummerieren kann",
    message:
        "the site has {buildings:building|buildings}, but the family can number {room}"
        | "Die Anlage hat {buildings} Gebäude, die Gerätefamilie kann {room} nummerieren",
    english:
        /// The building field has no number left for this building, so its dwellings cannot be told from those of another.
        ///
        /// Join buildings, or choose another family.
    german:
        /// Das Gebäudefeld hat für dieses Gebäude keine Nummer mehr; seine Wohnungen ließen sich nicht von denen eines anderen unterscheiden.
        ///
        /// Gebäude zusammenfassen, oder eine andere Familie wählen.
}
