//! `bus-voltage-above-selv`

code! {
    "bus-voltage-above-selv"
    title: "A bus voltage that is not safe to touch" | "Eine Busspannung, die man nicht gefahrlos berührt",
    short: "bus above SELV" | "Bus über SELV",
    message:
        "{element} has {value}, more than the {limit} that is safe to touch in the dry"
        | "{element} führt {value}, mehr als die {limit}, die man im Trockenen gefahrlos berührt",
    label: "<model {model}>" | "<Modell {model}>",
    hint:
        "correct the voltage; if it is meant, all of it is for licensed electricians"
        | "die Spannung berichtigen; ist sie gewollt, ist alles Sache von Elektrofachkräften",
    measure:
        "The voltage at the supply's terminals with nothing on it."
        | "Die Spannung an den Klemmen des Netzteils, ohne etwas daran.",
    english:
        /// # What it checks
        /// The nominal voltage of every supply as set, and of every distributor that makes its port voltage anew. Above
        /// 120 V DC is an error: it is no longer extra-low voltage (ripple-free DC, International
        /// Electrotechnical Vocabulary after IEC 61558-1). Above 60 V DC is a warning: basic protection is then needed
        /// everywhere, also where it is dry (BS 7671 regulation 414.4.5, IEC 60364-4-41). A supply whose model states
        /// more than 10 % of `ripple`, root mean square, is not ripple-free: its limits here are those of
        /// alternating current, 50 V and 25 V.
        ///
        /// # Why it matters
        /// Station terminals, bell cable and the way door-entry systems are wired all rest on a voltage that can be
        /// touched.
        ///
        /// # Example
        /// `set_voltage = "84 V"` where 48 V was meant.
        ///
        /// # What to do
        /// Correct the voltage. If it is meant, the installation is one for licensed electricians
        /// throughout, and what Latchline says of it is not enough.
    german:
        /// # Was geprüft wird
        /// Die eingestellte Nennspannung jedes Netzteils und jedes Verteilers, der seine Ausgangsspannung neu
        /// erzeugt. Über 120 V DC ist ein Fehler: Das ist keine Kleinspannung mehr (oberwellenfreier Gleichstrom,
        /// Internationales Elektrotechnisches Wörterbuch nach IEC 61558-1). Über 60 V DC ist eine Warnung: Dann ist
        /// überall Basisschutz nötig, auch im Trockenen (BS 7671, Abschnitt 414.4.5, IEC 60364-4-41). Ein Netzteil,
        /// dessen Modell mehr als 10 % Welligkeit (`ripple`, Effektivwert) nennt, ist nicht oberwellenfrei: Dann
        /// gelten hier die Grenzen für Wechselstrom, 50 V und 25 V.
        ///
        /// # Warum es zählt
        /// Klemmen der Stationen, Klingelleitung und die Art, wie Türsprechanlagen verdrahtet werden, setzen alle
        /// eine Spannung voraus, die man berühren darf.
        ///
        /// # Beispiel
        /// `set_voltage = "84 V"`, gemeint waren 48 V.
        ///
        /// # Was zu tun ist
        /// Die Spannung berichtigen. Ist sie gewollt, ist die Anlage durchgehend Sache von Elektrofachkräften, und
        /// was Latchline darüber sagt, genügt nicht.
}
