//! `no-operating-point`

code! {
    "no-operating-point"
    title: "The bus collapses under its load" | "Der Bus bricht unter seiner Last zusammen",
    short: "bus collapses" | "Bus bricht zusammen",
    message:
        "the bus of {element} collapses {state}: the cable cannot carry what is asked for<; hardest to feed is run {run}><; it could carry {share:down} of the load><; it could carry at least {least_share:down} of the load>< ({carried:down} of {asked} there)><; {devices} go dark>"
        | "Der Bus von {element} bricht zusammen ({state}): Die Leitung kann nicht tragen, was verlangt wird<; am schwersten zu speisen ist der Strang {run}><; tragen könnte sie {share:down} der Last><; tragen könnte sie mindestens {least_share:down} der Last>< ({carried:down} von {asked} dort)><; es fallen aus: {devices}>",
    label: "more load than the cable can carry" | "mehr Last, als die Leitung tragen kann",
    hint:
        "thicker conductors, a shorter way, more ports, or a supply nearer by"
        | "dickere Adern, ein kürzerer Weg, mehr Abgänge, oder ein Netzteil in der Nähe",
    measure:
        "The voltage at the supply while a call stands. If it stays up there and is down at the stations, measure along the riser where it is lost; if it falls at the supply too, read the supply's current."
        | "Die Spannung am Netzteil bei stehendem Ruf. Bleibt sie dort oben und fehlt an den Stationen, entlang der Steigleitung messen, wo sie verloren geht; fällt sie auch am Netzteil, dessen Strom ablesen.",
    english:
        /// # What it checks
        /// That the voltages of every supply's tree can settle at all, in every operating state and with
        /// every admissible set of calls, with every tolerance at its worst.
        ///
        /// # Why it matters
        /// Stations draw constant power: the lower the voltage, the higher the current. Beyond a
        /// certain load there is no voltage at which the cable can deliver the power; the bus collapses,
        /// stations restart one after another, and nothing comes up. A voltage-drop sum with a fixed current does not show
        /// this. Latchline proves it: for the reported state it has computed weights that show that no
        /// voltages satisfy the circuit's equations.
        ///
        /// What it could carry is the largest share of the load, the same of every device on this bus, with which there is an operating
        /// point: a little less is shown possible and a millionth more impossible, by figures that anyone can recompute. Where a device
        /// draws more at a higher voltage it is put at its most, and the share is 'at least'. The run that is named is that on which most of
        /// the voltage is lost at that limit, on the way to the device that falls fastest; the watts are those of its devices.
        ///
        /// # Example
        /// 24 stations of 6 W on one 0.5 mm pair of 80 m: all of them boot together after a power cut.
        ///
        /// # What to do
        /// Shorten the path, take thicker conductors, split the run over more ports, or add a supply nearer by.
    german:
        /// # Was geprüft wird
        /// Dass sich die Spannungen am Baum jedes Netzteils überhaupt einstellen können, in jedem Betriebszustand
        /// und mit jeder zulässigen Menge von Rufen, alle Toleranzen dagegen.
        ///
        /// # Warum es zählt
        /// Stationen ziehen konstante Leistung: je niedriger die Spannung, desto höher der Strom. Jenseits einer
        /// bestimmten Last gibt es keine Spannung, bei der die Leitung die Leistung liefern kann; der Bus bricht
        /// zusammen, Stationen starten nacheinander neu, und nichts kommt hoch. Eine Summe von Spannungsfällen mit
        /// festem Strom zeigt das nicht. Latchline beweist es: Für den gemeldeten Zustand sind Gewichte gerechnet,
        /// die zeigen, dass keine Spannungen die Gleichungen der Schaltung erfüllen.
        ///
        /// Tragen könnte der Bus den größten Anteil der Last, für jedes Gerät daran denselben, mit dem es einen Arbeitspunkt gibt: Dass etwas
        /// weniger geht und ein Millionstel mehr nicht, zeigen Zahlen, die jeder nachrechnen kann. Zieht ein Gerät bei höherer Spannung mehr,
        /// so ist es mit seinem Höchsten gerechnet, und der Anteil heißt 'mindestens'. Genannt ist der Strang, auf dem an dieser Grenze am
        /// meisten Spannung verloren geht, auf dem Weg zum Gerät, das am schnellsten fällt; die Watt sind die seiner Geräte.
        ///
        /// # Beispiel
        /// 24 Stationen zu 6 W an einem Paar 0,5 mm von 80 m: Nach einem Stromausfall starten alle zugleich.
        ///
        /// # Was zu tun ist
        /// Den Weg verkürzen, dickere Adern nehmen, den Strang auf mehr Abgänge verteilen, oder ein Netzteil näher
        /// setzen.
}
