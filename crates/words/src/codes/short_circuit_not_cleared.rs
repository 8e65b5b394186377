//! `short-circuit-not-cleared`

code! {
    "short-circuit-not-cleared"
    title: "A short that nothing ends overheats the cable" | "Ein Kurzschluss, den nichts beendet, überhitzt die Leitung",
    short: "short not cleared" | "Kurzschluss bleibt",
    message:
        "a short at the end of run {element} is not switched off: {current} go on and heat {cable} to {value}, where {limit} is its limit"
        | "Ein Kurzschluss am Ende des Strangs {element} steht mit {current} an, wird nicht abgeschaltet und erwärmt {cable} auf {value}; erlaubt sind {limit}",
    label: "<{by} only limits it>" | "<{by} begrenzt ihn nur>",
    hint:
        "ports with a limit of their own, a supply that trips, or thicker conductors"
        | "Abgänge mit eigener Begrenzung, ein Netzteil, das abschaltet, oder dickere Adern",
    measure:
        "Switch off first. Then the resistance of the run alone, far end open: if it is not open, divide it and measure both halves."
        | "Zuerst abschalten. Dann den Widerstand des Strangs allein, fernes Ende offen: Ist er nicht offen, teilen und beide Hälften messen.",
    english:
        /// # What it checks
        /// Where no trip ends a short at the far end of a run, the temperature that its conductors come to with the most current that can flow
        /// on (highest supply voltage, cold and short cable, other loads gone; where a trip is on the way, what hardly does not reach
        /// it): I² R of both conductors through 10 K m/W to the air at the hottest temperature (a pair laid in insulation: common
        /// practice, no source), against what the cable's insulation stands, 70 °C where it states nothing.
        ///
        /// # Why it matters
        /// A supply that only limits its current feeds a short for as long as it lasts. A thin pair behind a large
        /// supply becomes a heater in the wall.
        ///
        /// # Example
        /// 4.2 A flow on through the 0.5 mm pair of A-R5, which comes to 95 °C; its insulation is made for 70 °C.
        ///
        /// # What to do
        /// Ports with a limit of their own, a supply that trips, or thicker conductors.
    german:
        /// # Was geprüft wird
        /// Wo keine Abschaltung einen Kurzschluss am fernen Ende eines Strangs beendet: die Temperatur, auf die
        /// seine Adern mit dem größten Strom kommen, der weiterfließen kann (höchste Netzteilspannung, kalte und
        /// kurze Leitung, andere Lasten weg; wo eine Abschaltung auf dem Weg liegt, der Strom, der sie knapp nicht
        /// erreicht): I² R beider Adern über 10 K m/W an die Luft bei der höchsten Temperatur (ein Paar in Dämmung:
        /// üblich, keine Quelle), gegen das, was die Isolation der Leitung verträgt, 70 °C, wo nichts angegeben
        /// ist.
        ///
        /// # Warum es zählt
        /// Ein Netzteil, das seinen Strom nur begrenzt, speist einen Kurzschluss, solange er dauert. Ein dünnes
        /// Paar hinter einem großen Netzteil wird zur Heizung in der Wand.
        ///
        /// # Beispiel
        /// 4,2 A fließen weiter durch das Paar 0,5 mm von A-R5, das auf 95 °C kommt; seine Isolation verträgt 70
        /// °C.
        ///
        /// # Was zu tun ist
        /// Abgänge mit eigener Begrenzung, ein Netzteil, das abschaltet, oder dickere Adern.
}
