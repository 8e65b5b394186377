//! `start-up-fails`

code! {
    "start-up-fails"
    title: "Devices do not come up when power returns" | "Geräte laufen nach Netzwiederkehr nicht an",
    short: "does not come up" | "läuft nicht an",
    message:
        "{element} does not start: {down} of {of} devices stay down {state}<, {first_down} among them><; {limited_by} at its limit>"
        | "{element} läuft nicht an: {down} von {of} Geräten bleiben aus ({state})<, darunter {first_down}><; {limited_by} an der Grenze>",
    label:
        "<booting at once takes {boot}><, it gives {source_limit}>"
        | "<zugleich hochzufahren braucht {boot}><, es gibt {source_limit}>",
    hint:
        "a larger supply, stations with delays that differ from run to run, or several supplies"
        | "ein größeres Netzteil, Stationen mit von Strang zu Strang verschiedenen Verzögerungen, oder mehrere Netzteile",
    measure:
        "The voltage and current at the supply half a minute after switching on. A voltage that stands low with the current at its limit is this; take half of the runs off and switch on again."
        | "Spannung und Strom am Netzteil eine halbe Minute nach dem Einschalten. Steht die Spannung tief und der Strom an der Grenze, ist es das; die Hälfte der Stränge abklemmen und neu einschalten.",
    english:
        /// # What it checks
        /// Power return after a long cut, simulated to ten seconds beyond the longest boot, with everything off before and every tolerance against it: the
        /// supply's limit and how it acts, port limits, input capacitors and their inrush limits, turn-on and turn-off voltages,
        /// delays, boot power. It fails when it comes to rest with devices that do not run.
        ///
        /// Not judged where the catalogue does not say at which voltage a station starts and stops, how large its input capacitor is,
        /// or how a limit acts.
        ///
        /// # Why it matters
        /// A supply that holds its current can carry every device once it runs and still not start them: all capacitors hang at one
        /// voltage too low to start from, for good, until someone unplugs half of the building. I_limit must exceed
        /// the sum of P_boot / V_on for all to boot at once.
        ///
        /// # Example
        /// After a power cut A-PS sits at 34.1 V with its limit of 1.6 A; 12 of 30 stations never start.
        ///
        /// # What to do
        /// A larger supply, stations with delays that differ from run to run, or several supplies.
    german:
        /// # Was geprüft wird
        /// Netzwiederkehr nach langem Ausfall, gerechnet bis zehn Sekunden nach dem längsten Hochfahren, vorher
        /// alles aus und alle Toleranzen dagegen: die Grenze des Netzteils und wie sie wirkt, Grenzen der Abgänge,
        /// Eingangskondensatoren und ihre Einschaltbegrenzung, Ein- und Ausschaltspannungen, Verzögerungen,
        /// Leistung beim Hochfahren. Verfehlt ist sie, wenn sie zur Ruhe kommt und Geräte nicht laufen.
        ///
        /// Nicht beurteilt, wo der Katalog nicht sagt, bei welcher Spannung eine Station startet und stehen bleibt,
        /// wie groß ihr Eingangskondensator ist oder wie eine Grenze wirkt.
        ///
        /// # Warum es zählt
        /// Ein Netzteil, das seinen Strom hält, kann jedes Gerät tragen, sobald es läuft, und sie doch nicht
        /// starten: Alle Kondensatoren hängen an einer Spannung, die zum Starten zu niedrig ist, auf Dauer, bis
        /// jemand das halbe Haus absteckt. Damit alle zugleich starten, muss I_limit größer sein als die Summe von
        /// P_boot / V_on.
        ///
        /// # Beispiel
        /// Nach einem Stromausfall bleibt A-PS bei 34,1 V an seiner Grenze von 1,6 A stehen; 12 von 30 Stationen
        /// starten nie.
        ///
        /// # Was zu tun ist
        /// Ein größeres Netzteil, Stationen mit von Strang zu Strang verschiedenen Verzögerungen, oder mehrere
        /// Netzteile.
}
