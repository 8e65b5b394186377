//! `call-across-buses`

code! {
    "call-across-buses"
    title: "No wire leads from a door station to those whom it calls" | "Keine Leitung führt von einer Türstation zu denen, die sie ruft",
    short: "no wire to those called" | "keine Leitung zum Ziel",
    message:
        "{element} cannot reach those whom it calls: {called}"
        | "{element} erreicht nicht, wen er ruft: {called}",
    label: "no wire leads there" | "keine Leitung führt dorthin",
    hint:
        "join the buses by a signal link, or correct \"calls\""
        | "die Busse über einen Signaleingang verbinden, oder calls berichtigen",
    measure:
        "With the power off, continuity of the link between the two boxes, from terminal to terminal."
        | "Spannungsfrei den Durchgang der Verbindung zwischen beiden Verteilern, von Klemme zu Klemme.",
    english:
        /// # What it checks
        /// That the wiring joins every door and management station to all whom it calls, and to all whom an
        /// alarm input of it tells. Two supplies with separate runs make two buses; between the input and the
        /// ports of an isolating box only power passes, its signals come over its link.
        ///
        /// # Why it matters
        /// Everything has power and every station works on its own bus, but the call never arrives.
        ///
        /// # Example
        /// The gate calls everyone; block B has its own supply, and the link of its distributor is not wired.
        ///
        /// # What to do
        /// Join the buses in the way the family provides, usually over the link of an isolating box, or
        /// correct the `calls`.
    german:
        /// # Was geprüft wird
        /// Dass die Verdrahtung jede Türstation und Zentrale mit allen verbindet, die sie ruft, und mit allen,
        /// denen ein Meldeeingang von ihr meldet. Zwei Netzteile mit getrennten Strängen sind zwei Busse; zwischen
        /// dem Eingang und den Abgängen eines trennenden Verteilers geht nur die Speisung durch, seine Signale
        /// kommen über seinen Signaleingang.
        ///
        /// # Warum es zählt
        /// Alles hat Strom, und jede Station arbeitet an ihrem eigenen Bus, aber der Ruf kommt nie an.
        ///
        /// # Beispiel
        /// Das Tor ruft alle; Block B hat ein eigenes Netzteil, und der Signaleingang seines Verteilers ist nicht
        /// verdrahtet.
        ///
        /// # Was zu tun ist
        /// Die Busse so verbinden, wie die Gerätefamilie es vorsieht, meist über den Signaleingang eines trennenden
        /// Verteilers, oder `calls` berichtigen.
}
