//! `total-length-exceeded`

code! {
    "total-length-exceeded"
    title: "More cable on one port than the family allows" | "Mehr Leitung an einem Abgang, als die Familie erlaubt",
    short: "too much cable" | "zu viel Leitung",
    message:
        "port {element} has {value} of cable on it; the family {family} allows {limit}"
        | "Am Abgang {element} hängen {value} Leitung; die Gerätefamilie {family} erlaubt {limit}",
    label: "<start of run {run}>" | "<Anfang des Strangs {run}>",
    hint: "move a branch to another port" | "einen Abzweig auf einen anderen Abgang verlegen",
    english:
        /// # What it checks
        /// All the cable behind each output of a supply and each port of a distributor, branches
        /// included, up to the next distributor, against the family's `total_length_per_port`.
        /// Lengths count as stated. A family that states no such limit is not held to one.
        ///
        /// # Why it matters
        /// Every branch adds its capacitance and its reflections to the pair, even a branch that is
        /// not in use.
        ///
        /// # Example
        /// A-D1.1 feeds five floors through branch boxes: 34 m of riser and 290 m on the floors, 324 m in
        /// all; the family allows 300 m.
        ///
        /// # What to do
        /// Share the branches out over two ports, or take out dead spurs.
    german:
        /// # Was geprüft wird
        /// Alle Leitung hinter jedem Ausgang eines Netzteils und jedem Abgang eines Verteilers, Abzweige
        /// eingeschlossen, bis zum nächsten Verteiler, gegen `total_length_per_port` der Gerätefamilie. Längen
        /// zählen wie angegeben. Eine Familie, die keine solche Grenze nennt, wird an keiner gemessen.
        ///
        /// # Warum es zählt
        /// Jeder Abzweig gibt dem Paar seine Kapazität und seine Reflexionen dazu, auch einer, der nicht benutzt
        /// wird.
        ///
        /// # Beispiel
        /// A-D1.1 speist fünf Geschosse über Abzweigdosen: 34 m Steigleitung und 290 m auf den Geschossen, zusammen
        /// 324 m; die Familie erlaubt 300 m.
        ///
        /// # Was zu tun ist
        /// Die Abzweige auf zwei Abgänge verteilen, oder tote Stiche herausnehmen.
}
