//! `too-many-door-stations`

code! {
    "too-many-door-stations"
    title: "More door stations than the family allows" | "Mehr Türstationen, als die Familie erlaubt",
    message:
        "the site has {value} door stations; the family {family} allows {limit}"
        | "Die Anlage hat {value} Türstationen; die Gerätefamilie {family} erlaubt {limit}",
    label: "<the first beyond>" | "<die erste zu viel>",
    english:
        /// # What it checks
        /// The number of door stations on site against the family's `door_stations`. A family that states
        /// no such limit is not held to one.
        ///
        /// # Why it matters
        /// The system tells its door stations apart by number and lets one of them speak at a time; beyond
        /// its limit calls are lost, or two doors answer to one release button.
        ///
        /// # Example
        /// Eleven entrances; the family allows ten door stations.
        ///
        /// # What to do
        /// Divide the site into two systems, or leave a little-used entrance with a key or reader only.
    german:
        /// # Was geprüft wird
        /// Die Zahl der Türstationen der Anlage gegen `door_stations` der Gerätefamilie. Eine Familie, die keine
        /// solche Grenze nennt, wird an keiner gemessen.
        ///
        /// # Warum es zählt
        /// Die Anlage unterscheidet ihre Türstationen nach Nummer und lässt immer nur eine sprechen; jenseits ihrer
        /// Grenze gehen Rufe verloren, oder zwei Türen hören auf eine Freigabetaste.
        ///
        /// # Beispiel
        /// Elf Eingänge; die Familie erlaubt zehn Türstationen.
        ///
        /// # Was zu tun ist
        /// Die Anlage in zwei teilen, oder einem wenig benutzten Eingang nur Schlüssel oder Leser lassen.
}
