//! `short-circuit-not-detected`

code! {
    "short-circuit-not-detected"
    title: "A short on which nothing acts" | "Ein Kurzschluss, auf den nichts anspricht",
    short: "short not detected" | "Kurzschluss unerkannt",
    message:
        "a short at the end of run {element} draws {current}, too little for anything to switch off<; that takes {limit}>"
        | "Ein Kurzschluss am Ende des Strangs {element} zieht {current}, und nichts spricht an<; nötig sind {limit}>",
    label: "<the conductors come to {temperature}>" | "<die Adern kommen auf {temperature}>",
    hint:
        "ports with a limit of their own, or a supply that trips earlier"
        | "Abgänge mit eigener Begrenzung, oder ein Netzteil, das früher abschaltet",
    measure:
        "Switch off, take the run off and measure its resistance with the far end open: a run that is not open has the short."
        | "Abschalten, den Strang abklemmen und seinen Widerstand bei offenem fernem Ende messen: Ist er nicht offen, hat er den Kurzschluss.",
    english:
        /// # What it checks
        /// The current of a short at the far end of every run, with the lowest supply voltage and hot conductors, against
        /// the trip currents and limits on the way. Where none is reached, nothing acts.
        ///
        /// # Why it matters
        /// The supply takes the short for a load. Stations on the run are dead, the others work, the cable and its joints are
        /// warm, and no lamp says so.
        ///
        /// # Example
        /// A short at the end of A-R5 draws 1.1 A; the supply trips at 2 A only.
        ///
        /// # What to do
        /// Ports with a limit of their own, a supply with a lower trip current, or thicker conductors so that more flows.
    german:
        /// # Was geprüft wird
        /// Den Strom eines Kurzschlusses am fernen Ende jedes Strangs, mit der kleinsten Netzteilspannung und
        /// warmen Adern, gegen die Abschaltströme und Grenzen auf dem Weg. Wo keiner erreicht wird, spricht nichts
        /// an.
        ///
        /// # Warum es zählt
        /// Das Netzteil hält den Kurzschluss für eine Last. Stationen am Strang sind tot, die anderen arbeiten,
        /// Leitung und Verbindungen sind warm, und keine Lampe sagt es.
        ///
        /// # Beispiel
        /// Ein Kurzschluss am Ende von A-R5 zieht 1,1 A; das Netzteil schaltet erst bei 2 A ab.
        ///
        /// # Was zu tun ist
        /// Abgänge mit eigener Begrenzung, ein Netzteil mit kleinerem Abschaltstrom, oder dickere Adern, damit mehr
        /// fließt.
}
