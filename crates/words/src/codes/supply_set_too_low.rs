//! `supply-set-too-low`

code! {
    "supply-set-too-low"
    title: "A supply is set too low" | "Netzteil zu niedrig eingestellt",
    short: "supply set too low" | "zu niedrig eingestellt",
    message:
        "{element} is set to {value}; {device} needs {limit}, which no cable can give it"
        | "{element} ist auf {value} eingestellt; {device} braucht {limit}, was keine Leitung geben kann",
    label: "{model} gives {usual} as it is delivered" | "{model} gibt im Lieferzustand {usual}",
    hint: "look at set_voltage: a slip of the pen, or a reading taken elsewhere" | "set_voltage prüfen: verschrieben, oder anderswo gemessen",
    english:
        /// # What it checks
        /// A supply whose `set_voltage`, at the upper end of its tolerance and before any cable, is below what the least demanding
        /// device on it needs in use.
        ///
        /// # Why it matters
        /// Nothing on this supply works, and every other finding on it follows from this one.
        ///
        /// # Example
        /// `set_voltage = "4.8 V"` where 48 V was meant.
        ///
        /// # What to do
        /// Measure the supply at its terminals and state that, or leave `set_voltage` out: then the model's own voltage counts.
    german:
        /// # Was geprüft wird
        /// Ein Netzteil, dessen `set_voltage` am oberen Ende der Toleranz und vor jeder Leitung unter dem liegt, was das genügsamste
        /// Gerät daran im Betrieb braucht.
        ///
        /// # Warum es zählt
        /// An diesem Netzteil arbeitet nichts, und jeder andere Befund daran folgt aus diesem.
        ///
        /// # Beispiel
        /// `set_voltage = "4.8 V"`, gemeint waren 48 V.
        ///
        /// # Was zu tun ist
        /// Das Netzteil an seinen Klemmen messen und das angeben, oder `set_voltage` weglassen: Dann gilt die Spannung des Modells.
}
