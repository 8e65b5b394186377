//! `too-many-stations-in-dwelling`

code! {
    "too-many-stations-in-dwelling"
    title: "More stations in one dwelling than the family allows" | "Mehr Stationen in einer Wohnung, als die Familie erlaubt",
    short: "too many in a dwelling" | "zu viele je Wohnung",
    message:
        "{element} has {value} stations; the family {family} allows {limit}"
        | "{element} hat {value} Stationen; die Gerätefamilie {family} erlaubt {limit}",
    hint:
        "leave an extension out, or ask whether an additional bell does"
        | "eine Nebenstelle weglassen, oder fragen, ob ein zusätzlicher Rufmelder genügt",
    english:
        /// # What it checks
        /// The stations of each dwelling, its main one included, against the family's
        /// `stations_per_dwelling`. A family that states no such limit is not held to one.
        ///
        /// # Why it matters
        /// All stations of a dwelling ring at once. What is beyond the limit has no number of its own, does not
        /// ring, or cannot take the call.
        ///
        /// # Example
        /// The penthouse has a main station and four extensions; the family allows four stations.
        ///
        /// # What to do
        /// Leave an extension out. Where the family allows it, an additional bell can take its place.
    german:
        /// # Was geprüft wird
        /// Die Stationen jeder Wohnung, die Hauptstelle eingeschlossen, gegen `stations_per_dwelling` der
        /// Gerätefamilie. Eine Familie, die keine solche Grenze nennt, wird an keiner gemessen.
        ///
        /// # Warum es zählt
        /// Alle Stationen einer Wohnung läuten zugleich. Was jenseits der Grenze liegt, hat keine eigene Nummer,
        /// läutet nicht oder kann den Ruf nicht annehmen.
        ///
        /// # Beispiel
        /// Das Penthouse hat eine Hauptstelle und vier Nebenstellen; die Familie erlaubt vier Stationen.
        ///
        /// # Was zu tun ist
        /// Eine Nebenstelle weglassen. Wo die Familie es zulässt, kann ein zusätzlicher Rufmelder an ihre Stelle
        /// treten.
}
