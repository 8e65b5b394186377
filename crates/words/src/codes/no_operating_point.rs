//! `no-operating-point`

code! {
    "no-operating-point"
    title: "The bus collapses under its load" | "Der Bus bricht unter seiner Last zusammen",
    message:
        "the bus of {element} collapses {state}: the cable cannot carry what is asked for<; {devices} go dark>"
        | "Der Bus von {element} bricht zusammen ({state}): Die Leitung kann nicht tragen, was verlangt wird<; es fallen aus: {devices}>",
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
        /// # Beispiel
        /// 24 Stationen zu 6 W an einem Paar 0,5 mm von 80 m: Nach einem Stromausfall starten alle zugleich.
        ///
        /// # Was zu tun ist
        /// Den Weg verkürzen, dickere Adern nehmen, den Strang auf mehr Abgänge verteilen, oder ein Netzteil näher
        /// setzen.
}
