//! `lock-duty-exceeded`

code! {
    "lock-duty-exceeded"
    title: "A lock is energised longer than it is made for" | "Ein Schloss steht länger unter Strom, als es verträgt",
    short: "lock energised too long" | "Schloss zu lang bestromt",
    message:
        "the lock {lock} of {element} is energised {when}<, {value},> and is made for {duty_limit}"
        | "Das Schloss {lock} von {element} ist bestromt, {when}<, {value}>, und verträgt {duty_limit}",
    hint:
        "shorten the hold time, or take a lock for continuous duty"
        | "die Freigabezeit verkürzen, oder ein Schloss für Dauerbetrieb nehmen",
    measure:
        "For how many seconds there is voltage at the lock after a release, and how hot it is after ten of them."
        | "Wie viele Sekunden nach einer Freigabe Spannung am Schloss liegt, und wie heiß es nach zehn Freigaben ist.",
    english:
        /// # What it checks
        /// How long the lock's coil is energised at a stretch against the longest time its datasheet allows.
        /// A lock that opens with power is energised for the release time that acts; one that opens without
        /// power is energised all the time it is shut and must be rated for continuous duty (no
        /// `duty_limit`).
        ///
        /// # Why it matters
        /// A coil for short duty burns out when it is held too long, quickest in a hot porch.
        ///
        /// # Example
        /// A motor lock for 10 s held released for 30 s.
        ///
        /// # What to do
        /// Shorten the release time where it is set, or take a lock for continuous duty.
    german:
        /// # Was geprüft wird
        /// Wie lange die Spule des Schlosses am Stück bestromt ist, gegen die längste Zeit, die sein Datenblatt
        /// erlaubt. Ein Schloss, das mit Strom öffnet, ist für die wirksame Freigabezeit bestromt; eines, das ohne
        /// Strom öffnet, solange es zu ist, und muss für Dauerbetrieb gebaut sein (kein `duty_limit`).
        ///
        /// # Warum es zählt
        /// Eine Spule für Kurzzeitbetrieb brennt durch, wenn sie zu lange gehalten wird, am schnellsten in einem
        /// heißen Vorraum.
        ///
        /// # Beispiel
        /// Ein Motorschloss für 10 s wird 30 s freigegeben.
        ///
        /// # Was zu tun ist
        /// Die Freigabezeit dort verkürzen, wo sie eingestellt wird, oder ein Schloss für Dauerbetrieb nehmen.
}
