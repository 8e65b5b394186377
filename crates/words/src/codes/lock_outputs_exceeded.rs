//! `lock-outputs-exceeded`

code! {
    "lock-outputs-exceeded"
    title: "More locks than the door station has outputs" | "Mehr Schlösser, als die Türstation Ausgänge hat",
    short: "too many locks" | "zu viele Schlösser",
    message:
        "{element} has {value} locks; {station} has {limit} outputs"
        | "{element} hat {value} Schlösser; {station} hat {limit} Ausgänge",
    hint:
        "take a model with more outputs, or leave a lock to another entrance"
        | "ein Modell mit mehr Ausgängen nehmen, oder ein Schloss einem anderen Eingang überlassen",
    measure:
        "The voltage at each lock while the other one is released."
        | "Die Spannung an jedem Schloss, während das andere freigegeben wird.",
    english:
        /// # What it checks
        /// The number of locks at an entrance against the lock outputs or relays of its door station.
        ///
        /// # Why it matters
        /// Two locks on one output open together, and together draw more than the output gives.
        ///
        /// # Example
        /// A gate and a wicket beside it at a door station with one relay.
        ///
        /// # What to do
        /// Take a door station with as many outputs, or a relay module of the family.
    german:
        /// # Was geprüft wird
        /// Die Zahl der Schlösser an einem Eingang gegen die Schlossausgänge oder Relais seiner Türstation.
        ///
        /// # Warum es zählt
        /// Zwei Schlösser an einem Ausgang öffnen zusammen und ziehen zusammen mehr, als der Ausgang gibt.
        ///
        /// # Beispiel
        /// Ein Tor und eine Schlupftür daneben an einer Türstation mit einem Relais.
        ///
        /// # Was zu tun ist
        /// Eine Türstation mit so vielen Ausgängen nehmen, oder ein Relaismodul der Gerätefamilie.
}
