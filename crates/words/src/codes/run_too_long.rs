//! `run-too-long`

code! {
    "run-too-long"
    title: "The path from the port is longer than the family allows" | "Der Weg vom Abgang ist länger, als die Familie erlaubt",
    short: "run too long" | "Strang zu lang",
    message:
        "the way from {from} to {to} is {value} long; the family {family} allows {limit}"
        | "Der Weg von {from} nach {to} ist {value} lang; die Gerätefamilie {family} erlaubt {limit}",
    hint:
        "place a distributor nearer by, or take a shorter way"
        | "einen Verteiler näher setzen, oder einen kürzeren Weg nehmen",
    measure:
        "With the power off, the capacitance of the way with its far end open; divided by that of a metre it is the length, whatever the joints."
        | "Spannungsfrei die Kapazität des Wegs bei offenem fernem Ende; geteilt durch die eines Meters ist sie die Länge, wie die Klemmen auch sind.",
    english:
        /// # What it checks
        /// The cable path from each output of a supply and each port of a distributor to the farthest
        /// device behind it, through stations and branch boxes up to the input of the next
        /// distributor, against the family's `longest_run`. Lengths count as stated, since that is how such
        /// limits are meant. A family that states no such limit is not held to one.
        ///
        /// # Why it matters
        /// Signals weaken with length, and the family's limit is the length its maker answers for.
        /// Voltage is judged on its own and can fail earlier.
        ///
        /// # Example
        /// A-504 is 164 m of cable away from A-D1.3; the family allows 150 m.
        ///
        /// # What to do
        /// Place a distributor nearer by, or lead the run another way. Thicker cable does not lift this limit
        /// unless the family says so.
    german:
        /// # Was geprüft wird
        /// Den Leitungsweg von jedem Ausgang eines Netzteils und jedem Abgang eines Verteilers zum fernsten Gerät
        /// dahinter, durch Stationen und Abzweigdosen bis zum Eingang des nächsten Verteilers, gegen `longest_run`
        /// der Gerätefamilie. Längen zählen wie angegeben, denn so sind solche Grenzen gemeint. Eine Familie, die
        /// keine solche Grenze nennt, wird an keiner gemessen.
        ///
        /// # Warum es zählt
        /// Signale werden mit der Länge schwächer, und die Grenze der Familie ist die Länge, für die ihr Hersteller
        /// einsteht. Die Spannung wird für sich beurteilt und kann früher versagen.
        ///
        /// # Beispiel
        /// A-504 ist 164 m Leitung von A-D1.3 entfernt; die Familie erlaubt 150 m.
        ///
        /// # Was zu tun ist
        /// Einen Verteiler näher setzen, oder den Strang anders führen. Dickere Leitung hebt diese Grenze nicht, es
        /// sei denn, die Familie sagt es.
}
