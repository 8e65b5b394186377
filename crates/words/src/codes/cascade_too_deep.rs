//! `cascade-too-deep`

code! {
    "cascade-too-deep"
    title: "More distributors one behind the other than the family allows" | "Mehr Verteiler hintereinander, als die Familie erlaubt",
    short: "too many boxes in line" | "zu viele Verteiler",
    message:
        "{element} is number {value} in a cascade of distributors; the family {family} allows {limit}"
        | "{element} ist Nummer {value} in einer Kaskade von Verteilern; die Gerätefamilie {family} erlaubt {limit}",
    english:
        /// # What it checks
        /// How many distributors stand one behind the other's ports, by power or by the signal link,
        /// against the family's `cascade_depth`. The one next to the supply is the first. Distributors
        /// that one run is looped through stand side by side; branch boxes do not count. A family that
        /// states no such limit is not held to one.
        ///
        /// # Why it matters
        /// Each distributor weakens and delays the signal that passes through it, and its own drop adds to
        /// the cable's.
        ///
        /// # Example
        /// A-D1 feeds A-D2, that feeds A-D3, that feeds A-D4; the family allows three.
        ///
        /// # What to do
        /// Feed the last distributor from a port nearer to the supply.
    german:
        /// # Was geprüft wird
        /// Wie viele Verteiler hintereinander an den Abgängen der anderen stehen, mit Speisung oder Signaleingang,
        /// gegen die `cascade_depth` der Gerätefamilie. Der am Netzteil ist der erste. Verteiler, durch die ein
        /// Strang geschleift ist, stehen nebeneinander; Abzweigdosen zählen nicht. Eine Familie, die keine solche
        /// Grenze nennt, wird an keiner gemessen.
        ///
        /// # Warum es zählt
        /// Jeder Verteiler schwächt und verzögert das Signal, das durch ihn geht, und sein Spannungsfall kommt zu
        /// dem der Leitung hinzu.
        ///
        /// # Beispiel
        /// A-D1 speist A-D2, der A-D3, der A-D4; die Familie erlaubt drei.
        ///
        /// # Was zu tun ist
        /// Den letzten Verteiler von einem Abgang näher am Netzteil speisen.
}
