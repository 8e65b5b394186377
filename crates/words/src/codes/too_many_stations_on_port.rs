//! `too-many-stations-on-port`

code! {
    "too-many-stations-on-port"
    title: "More stations on one port than the family allows" | "Mehr Stationen an einem Abgang, als die Familie erlaubt",
    short: "too many on a port" | "zu viele am Abgang",
    message:
        "port {element} has {value} stations on it; the family {family} allows {limit}"
        | "Am Abgang {element} hängen {value} Stationen; die Gerätefamilie {family} erlaubt {limit}",
    label: "<start of run {run}>" | "<Anfang des Strangs {run}>",
    hint: "move stations to another port" | "Stationen auf einen anderen Abgang verlegen",
    english:
        /// # What it checks
        /// How many stations hang on each output of a supply and each port of a distributor, with branch
        /// boxes and everything beyond up to the next distributor, against the family's
        /// `stations_per_port`. A family that states no such limit is not held to one.
        ///
        /// # Why it matters
        /// Every station loads the pair for signals, whether it is in use or not. The family's count is what its
        /// maker has tried; voltage and current are judged beside it and can allow more or less.
        ///
        /// # Example
        /// 17 stations on A-D1.2; the family allows 16.
        ///
        /// # What to do
        /// Move stations to a free port, or add a distributor.
    german:
        /// # Was geprüft wird
        /// Wie viele Stationen an jedem Ausgang eines Netzteils und jedem Abgang eines Verteilers hängen, mit
        /// Abzweigdosen und allem dahinter bis zum nächsten Verteiler, gegen `stations_per_port` der Gerätefamilie.
        /// Eine Familie, die keine solche Grenze nennt, wird an keiner gemessen.
        ///
        /// # Warum es zählt
        /// Jede Station belastet das Paar für Signale, ob sie benutzt wird oder nicht. Die Anzahl der Familie ist,
        /// was ihr Hersteller erprobt hat; Spannung und Strom werden daneben beurteilt und können mehr oder weniger
        /// erlauben.
        ///
        /// # Beispiel
        /// 17 Stationen an A-D1.2; die Familie erlaubt 16.
        ///
        /// # Was zu tun ist
        /// Stationen auf einen freien Abgang verlegen, oder einen Verteiler ergänzen.
}
