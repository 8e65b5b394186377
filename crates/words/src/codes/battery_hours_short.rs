//! `battery-hours-short`

code! {
    "battery-hours-short"
    title: "A battery that does not last" | "Eine Batterie, die nicht lange genug hält",
    short: "battery too short" | "Batterie zu kurz",
    message:
        "the battery of {element} lasts {value}; the policy asks for {limit}"
        | "Die Batterie von {element} hält {value}; die Vorgabe ist {limit}",
    label:
        "<{effective} left of {capacity}, {current} drawn>"
        | "<{effective} übrig von {capacity}, entnommen {current}>",
    hint:
        "take a larger battery, or reduce what is on in standby"
        | "eine größere Batterie, oder weniger Last in Ruhe",
    measure:
        "With mains off, the current out of the battery in standby; and the battery's voltage under that load after an hour."
        | "Ohne Netz den Strom aus der Batterie in Ruhe; und die Spannung der Batterie unter dieser Last nach einer Stunde.",
    english:
        /// # What it checks
        /// Where the policy asks for `standby_hours`: how long each battery carries its supply's standby
        /// load with every tolerance at its worst, by day and by night, with the battery at the end of its life (80 % of
        /// its capacity), at the coldest of its cupboard (IEEE 485 factors, from memory; 20 °C if none is
        /// stated), with the `calls_per_hour` of the policy if it states any, by Peukert's law in its rated-time form. A battery without efficiency or Peukert
        /// exponent is not judged; a supply without battery is `battery-missing`.
        ///
        /// # Why it matters
        /// A new battery on a warm day lasts; the question is the five-year-old one in January.
        ///
        /// # Example
        /// 17 Ah at 24 V carry 40 W of standby for 7 h when new, 4.6 h at the end.
        ///
        /// # What to do
        /// A larger battery, or less standby load on this supply. Locks that must hold through a power cut
        /// belong on a supply of their own with a battery.
    german:
        /// # Was geprüft wird
        /// Wo die Vorgabe `standby_hours` verlangt: wie lange jede Batterie die Ruhelast ihres Netzteils trägt,
        /// alle Toleranzen dagegen, bei Tag und bei Nacht, mit der Batterie am Ende ihres Lebens (80 % ihrer
        /// Kapazität), bei der tiefsten Temperatur des Schranks (Faktoren nach IEEE 485, aus dem Gedächtnis; 20 °C, wenn
        /// keine angegeben ist), nach Peukerts Gesetz in der Form mit Nennzeit. Eine Batterie ohne Wirkungsgrad
        /// oder Peukert-Exponent wird nicht beurteilt; ein Netzteil ohne Batterie ist `battery-missing`. Rufe zählen, wenn die
        /// Vorgabe `calls_per_hour` angibt.
        ///
        /// # Warum es zählt
        /// Eine neue Batterie an einem warmen Tag hält; die Frage ist die fünf Jahre alte im Januar.
        ///
        /// # Beispiel
        /// 17 Ah bei 24 V tragen 40 W Ruhelast neu 7 h, am Ende 4,6 h.
        ///
        /// # Was zu tun ist
        /// Eine größere Batterie, oder weniger Ruhelast an diesem Netzteil. Schlösser, die einen Netzausfall
        /// überstehen müssen, gehören an ein eigenes Netzteil mit Batterie.
}
