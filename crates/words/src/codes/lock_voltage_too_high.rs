//! `lock-voltage-too-high`

code! {
    "lock-voltage-too-high"
    title: "Too much voltage for a lock" | "Zu viel Spannung für ein Schloss",
    message:
        "what feeds the lock {lock} of {element} gives up to {value}; the lock is made for at most {limit}"
        | "Was das Schloss {lock} von {element} speist, gibt bis zu {value}; das Schloss verträgt höchstens {limit}",
    hint:
        "take a lock for that voltage, or feed it from a lower one"
        | "ein Schloss für diese Spannung nehmen, oder aus einer niedrigeren speisen",
    measure:
        "The voltage at the lock's own terminals while it is released, with the lock connected and the battery full."
        | "Die Spannung an den Klemmen des Schlosses während der Freigabe, mit angeschlossenem Schloss und voller Batterie.",
    english:
        /// # What it checks
        /// The highest voltage that can reach a lock, which is the upper end of what feeds it (a cable never
        /// raises a voltage), against its rated voltage plus its tolerance.
        ///
        /// # Why it matters
        /// A coil's heat grows with the square of its voltage: 20 % more voltage is 44 % more heat. A magnet
        /// that is held all day chars its winding; a strike outlives it only because it is held for seconds.
        ///
        /// # Example
        /// A 12 V lock on a supply set to 13.8 V for its battery: 15 % over, the lock bears 10 %.
        ///
        /// # What to do
        /// Take a feed of the lock's voltage, or a lock of the feed's voltage. A resistor is no remedy: it
        /// takes away as much at inrush.
    german:
        /// # Was geprüft wird
        /// Die höchste Spannung, die ein Schloss erreichen kann, also das obere Ende dessen, was es speist (eine
        /// Leitung hebt nie eine Spannung), gegen seine Nennspannung plus Toleranz.
        ///
        /// # Warum es zählt
        /// Die Wärme einer Spule wächst mit dem Quadrat ihrer Spannung: 20 % mehr Spannung sind 44 % mehr Wärme.
        /// Einem Magneten, der den ganzen Tag gehalten wird, verkohlt die Wicklung; ein Türöffner übersteht es nur,
        /// weil er Sekunden lang bestromt ist.
        ///
        /// # Beispiel
        /// Ein 12-V-Schloss an einem Netzteil, das wegen seiner Batterie auf 13,8 V steht: 15 % darüber, das
        /// Schloss verträgt 10 %.
        ///
        /// # Was zu tun ist
        /// Eine Speisung mit der Spannung des Schlosses nehmen, oder ein Schloss für die Spannung der Speisung. Ein
        /// Widerstand hilft nicht: Er nimmt beim Einschalten ebenso viel weg.
}
