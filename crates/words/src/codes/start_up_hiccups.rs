//! `start-up-hiccups`

code! {
    "start-up-hiccups"
    title: "Power return starts and drops out again and again" | "Die Anlage läuft nach Netzwiederkehr immer wieder an und fällt aus",
    short: "starts again and again" | "läuft immer neu an",
    message:
        "{element} starts and drops out again and again {state}<, every {period}>: {down} of {of} devices are down"
        | "{element} läuft an und fällt immer wieder aus ({state})<, alle {period}>: {down} von {of} Geräten sind aus",
    label:
        "<booting at once takes {boot}><, it gives {source_limit}>"
        | "<zugleich hochzufahren braucht {boot}><, es gibt {source_limit}>",
    hint:
        "a larger supply, one that holds its current, stations with delays that differ from run to run, or several supplies"
        | "ein größeres Netzteil, eines, das seinen Strom hält, Stationen mit von Strang zu Strang verschiedenen Verzögerungen, oder mehrere Netzteile",
    measure:
        "The voltage at the supply during the first half minute: if it comes and goes, take runs off one by one until it stands."
        | "Die Spannung am Netzteil in der ersten halben Minute: Kommt und geht sie, Stränge einzeln abklemmen, bis sie steht.",
    english:
        /// # What it checks
        /// Power return as in `start-up-fails`: whether the supply trips and tries again without end, or stations
        /// start, pull the bus down and drop out again and again.
        ///
        /// # Why it matters
        /// After a power cut the building clicks every two seconds and nothing works. By the next day somebody has swapped
        /// the supply for another of the same kind.
        ///
        /// # Example
        /// A-PS trips 50 ms after it has started, waits 2 s and tries again: the capacitors of 46 stations ask for more than its limit.
        ///
        /// # What to do
        /// A supply with a higher limit or one that holds its current, stations with delays that differ from run to run, or
        /// several supplies.
    german:
        /// # Was geprüft wird
        /// Netzwiederkehr wie in `start-up-fails`: ob das Netzteil ohne Ende abschaltet und es wieder versucht,
        /// oder Stationen starten, den Bus herunterziehen und wieder ausfallen, immer wieder.
        ///
        /// # Warum es zählt
        /// Nach einem Stromausfall klickt das Haus alle zwei Sekunden, und nichts arbeitet. Am nächsten Tag hat
        /// jemand das Netzteil gegen ein gleiches getauscht.
        ///
        /// # Beispiel
        /// A-PS schaltet 50 ms nach dem Start ab, wartet 2 s und versucht es wieder: Die Kondensatoren von 46
        /// Stationen verlangen mehr als seine Grenze.
        ///
        /// # Was zu tun ist
        /// Ein Netzteil mit höherer Grenze oder eines, das seinen Strom hält, Stationen mit von Strang zu Strang
        /// verschiedenen Verzögerungen, oder mehrere Netzteile.
}
