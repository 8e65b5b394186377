//! `lock-voltage-too-high`

code! {
    "lock-voltage-too-high"
    title: "Too much voltage for a lock" | "Zu viel Spannung für ein Schloss",
    short: "lock: voltage too high" | "Schloss: Überspannung",
    message:
        "the lock {lock} of {element} gets up to {value} while it is fed; it is made for at most {limit}"
        | "Das Schloss {lock} von {element} bekommt bis zu {value}, solange es gespeist wird; es verträgt höchstens {limit}",
    hint:
        "take a lock for that voltage, or feed it from a lower one"
        | "ein Schloss für diese Spannung nehmen, oder aus einer niedrigeren speisen",
    measure:
        "The voltage at the lock's own terminals while it is released, with the lock connected and the battery full."
        | "Die Spannung an den Klemmen des Schlosses während der Freigabe, mit angeschlossenem Schloss und voller Batterie.",
    english:
        /// # What it checks
        /// The highest voltage that a lock sees while it is fed, against its rated voltage plus its tolerance. The feed is at the upper end of
        /// its tolerance. A strike or a magnet on direct current is a coil and draws all the while: at least its current less 10 % (common practice,
        /// no source) through a winding at 105 °C, the hottest that lasts (class 105 of IEC 60085). Its own cable, cold, short, at
        /// the lower end of its tolerance and with joints that have no resistance, takes that much away. Of a motor, on alternating current and
        /// where the cable is not stated the feed's own voltage holds: a cable never raises it. What an output stands at while a contact leaves
        /// the lock open hurts no lock.
        ///
        /// # Why it matters
        /// A coil's heat grows with the square of its voltage: 20 % more voltage is 44 % more heat. A magnet
        /// that is held all day chars its winding; a strike outlives it only because it is held for seconds.
        ///
        /// # Example
        /// A 12 V lock on a supply set to 13.8 V for its battery: 15 % over, where the lock is made for 10 %.
        ///
        /// # What to do
        /// Take a feed of the lock's voltage, or a lock of the feed's voltage. A resistor is no remedy: it
        /// takes away as much at inrush.
    german:
        /// # Was geprüft wird
        /// Die höchste Spannung, die ein Schloss sieht, solange es gespeist wird, gegen seine Nennspannung plus Toleranz. Die Speisung steht am
        /// oberen Ende ihrer Toleranz. Ein Türöffner oder Magnet an Gleichstrom ist eine Spule und zieht die ganze Zeit: mindestens
        /// seinen Strom weniger 10 % (übliche Praxis, ohne Quelle) durch eine Wicklung bei 105 °C, dem Heißesten, das auf Dauer hält (Klasse 105
        /// der IEC 60085). So viel nimmt seine eigene Leitung weg: kalt, kurz, an der unteren Toleranz, Verbindungen ohne
        /// Widerstand. Beim Motor, an Wechselstrom und ohne angegebene Leitung gilt die Spannung der Speisung selbst: Eine Leitung hebt sie nie. Was
        /// an einem Ausgang steht, während ein Kontakt das Schloss offen lässt, schadet keinem Schloss.
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
