//! `lock-current-kind`

code! {
    "lock-current-kind"
    title: "A lock on the wrong kind of current" | "Ein Schloss an der falschen Stromart",
    short: "wrong kind of current" | "falsche Stromart",
    message:
        "the lock {lock} of {element} needs {needs} and gets {gets}"
        | "Das Schloss {lock} von {element} braucht {needs} und bekommt {gets}",
    hint: "take another lock, or another feed" | "ein anderes Schloss nehmen, oder eine andere Speisung",
    measure:
        "The voltage at the lock while it is released, once with the meter for direct and once for alternating current; then read the lock's plate."
        | "Die Spannung am Schloss während der Freigabe, einmal mit dem Messgerät für Gleich- und einmal für Wechselspannung; dann das Schild des Schlosses lesen.",
    english:
        /// # What it checks
        /// That a lock made for direct current gets direct current, and one made for alternating current
        /// alternating.
        ///
        /// # Why it matters
        /// A strike for alternating current has a coil of low resistance that relies on its reactance: on
        /// direct current it draws more than rated and overheats. One for direct current only buzzes on
        /// alternating current.
        ///
        /// # Example
        /// The old 12 V AC strike of the bell system on the door station's 12 V DC output.
        ///
        /// # What to do
        /// Change the lock, or keep its transformer as a supply of its own through the station's relay
        /// (`feed = "own-supply"`, `supply_ac = true`).
    german:
        /// # Was geprüft wird
        /// Dass ein Schloss für Gleichstrom Gleichstrom bekommt, und eines für Wechselstrom Wechselstrom.
        ///
        /// # Warum es zählt
        /// Ein Türöffner für Wechselstrom hat eine niederohmige Spule, die auf ihren Blindwiderstand baut: An
        /// Gleichstrom zieht sie mehr als den Nennstrom und wird zu heiß. Einer nur für Gleichstrom summt an
        /// Wechselstrom.
        ///
        /// # Beispiel
        /// Der alte Türöffner der Klingelanlage für 12 V AC am 12-V-DC-Ausgang der Türstation.
        ///
        /// # Was zu tun ist
        /// Das Schloss tauschen, oder seinen Transformator als eigenes Netzteil über das Relais der Station
        /// behalten (`feed = "own-supply"`, `supply_ac = true`).
}
