//! `too-many-door-stations`

code! {
    "too-many-door-stations"
    title: "More door stations than the family allows" | "Mehr Türstationen, als die Familie erlaubt",
    short: "too many door stations" | "zu viele Türstationen",
    message:
        "the bus has {value} door stations; the family {family} allows {limit}"
        | "Der Bus hat {value} Türstationen; die Gerätefamilie {family} erlaubt {limit}",
    label: "<the first beyond>" | "<die erste zu viel>",
    hint:
        "two buses that no wire joins, where nobody calls across; or only a key or reader at a little-used entrance"
        | "zwei Busse, die keine Ader verbindet, wenn niemand hinüberruft; oder an einem wenig benutzten Eingang nur Schlüssel oder Leser",
    english:
        /// # What it checks
        /// The number of door stations on a bus against the family's `door_stations`; buses that no wire joins
        /// count apart. A family that states no such limit is not held to one.
        ///
        /// # Why it matters
        /// A bus tells its door stations apart by number and lets one of them speak at a time; beyond
        /// its limit calls are lost, or two doors answer to one release button.
        ///
        /// # Example
        /// Eleven entrances; the family allows ten door stations.
        ///
        /// # What to do
        /// Divide the site into two buses that no wire joins, where nobody calls across, or leave a little-used entrance with a key or reader only.
    german:
        /// # Was geprüft wird
        /// Die Zahl der Türstationen eines Busses gegen `door_stations` der Gerätefamilie; Busse, die keine Ader
        /// verbindet, zählen je für sich. Eine Familie, die keine solche Grenze nennt, wird an keiner gemessen.
        ///
        /// # Warum es zählt
        /// Ein Bus unterscheidet seine Türstationen nach Nummer und lässt immer nur eine sprechen; jenseits seiner
        /// Grenze gehen Rufe verloren, oder zwei Türen hören auf eine Freigabetaste.
        ///
        /// # Beispiel
        /// Elf Eingänge; die Familie erlaubt zehn Türstationen.
        ///
        /// # Was zu tun ist
        /// Die Anlage in zwei Busse teilen, die keine Ader verbindet, wenn niemand hinüberruft, oder einem wenig benutzten Eingang nur Schlüssel oder Leser lassen.
}
