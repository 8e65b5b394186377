//! `mixed-families`

code! {
    "mixed-families"
    title: "Parts of different families on one bus" | "Teile verschiedener Familien an einem Bus",
    short: "mixed families" | "Familien gemischt",
    message:
        "{element} is of the family {family} on a bus of {expected}"
        | "{element} gehört zur Gerätefamilie {family} an einem Bus von {expected}",
    label: "<model {model}>" | "<Modell {model}>",
    hint: "keep every bus to one family" | "jeden Bus bei einer Familie lassen",
    english:
        /// # What it checks
        /// That every supply, box, station and accessory module on one bus belongs to one family. A bus is
        /// everything that cables and boxes join: a distributor that makes its port voltage anew, or lets
        /// only signals pass, does not end it.
        ///
        /// # Why it matters
        /// Parts of different families speak different languages, even where voltage and plugs agree. The
        /// best that happens is nothing; some mixtures damage the part with the lower voltage.
        ///
        /// # Example
        /// One flat keeps its station of another family. It never rings.
        ///
        /// # What to do
        /// Choose the corresponding model of the bus's family, or give the odd parts a bus of their own.
    german:
        /// # Was geprüft wird
        /// Dass jedes Netzteil, jeder Verteiler, jede Station und jedes Zubehörmodul an einem Bus zu einer
        /// Gerätefamilie gehört. Ein Bus ist alles, was Leitungen und Verteiler verbinden: Ein Verteiler, der seine
        /// Ausgangsspannung neu erzeugt oder nur Signale durchlässt, beendet ihn nicht.
        ///
        /// # Warum es zählt
        /// Teile verschiedener Familien sprechen verschiedene Sprachen, auch wo Spannung und Stecker passen. Im
        /// besten Fall geschieht nichts; manche Mischung beschädigt das Teil mit der niedrigeren Spannung.
        ///
        /// # Beispiel
        /// Eine Wohnung behält ihre Station einer anderen Familie. Sie läutet nie.
        ///
        /// # Was zu tun ist
        /// Das entsprechende Modell der Familie des Busses wählen, oder den fremden Teilen einen eigenen Bus geben.
}
