//! `suppression-unsuitable`

code! {
    "suppression-unsuitable"
    title: "A diode across a lock on alternating current" | "Eine Diode an einem Schloss mit Wechselstrom",
    short: "diode on AC" | "Diode an Wechselstrom",
    message:
        "the lock {lock} of {element} has a diode across it on alternating current"
        | "Das Schloss {lock} von {element} hat eine Diode an Wechselstrom",
    label: "a short circuit every half wave" | "jede zweite Halbwelle ein Kurzschluss",
    hint: "take a varistor" | "einen Varistor nehmen",
    measure:
        "With the power off and one wire of the lock taken off, the resistance across it both ways round: a diode conducts one way only."
        | "Spannungsfrei und einen Draht des Schlosses abgeklemmt, den Widerstand in beiden Richtungen: Eine Diode leitet nur in einer.",
    english:
        /// # What it checks
        /// That no plain diode lies across a lock on alternating current.
        ///
        /// # Why it matters
        /// The diode shorts every second half-wave: the transformer overheats, the fuse blows or the diode does.
        ///
        /// # Example
        /// A 12 V AC strike with a diode across its terminals.
        ///
        /// # What to do
        /// A varistor for the voltage, or a clamp that works both ways.
    german:
        /// # Was geprüft wird
        /// Dass an einem Schloss mit Wechselstrom keine einfache Diode liegt.
        ///
        /// # Warum es zählt
        /// Die Diode schließt jede zweite Halbwelle kurz: Der Transformator wird zu heiß, die Sicherung fällt oder
        /// die Diode.
        ///
        /// # Beispiel
        /// Ein Türöffner für 12 V AC mit einer Diode an seinen Klemmen.
        ///
        /// # Was zu tun ist
        /// Ein Varistor für die Spannung, oder eine Suppressordiode, die in beide Richtungen wirkt.
}
