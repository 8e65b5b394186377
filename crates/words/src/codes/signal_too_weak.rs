//! `signal-too-weak`

code! {
    "signal-too-weak"
    title: "The signal arrives too weak" | "Das Signal kommt zu schwach an",
    short: "signal too weak" | "Signal zu schwach",
    message:
        "{element} gets the {band} from {caller} too weak: {value} are lost on the way at {frequency} ({lengths}); {limit} are allowed"
        | "{band} von {caller} kommt an {element} zu schwach an: {value} gehen unterwegs verloren, bei {frequency} ({lengths}); erlaubt sind {limit}",
    label: "<on run {run}>" | "<am Strang {run}>",
    hint:
        "fewer boxes and branches on the way, a shorter way, or a cable with less loss"
        | "weniger Verteiler und Abzweige unterwegs, ein kürzerer Weg, oder eine Leitung mit weniger Dämpfung",
    measure:
        "With the power off, the loop resistance of the run with its far end bridged and its capacitance with the far end open. Both as planned: count boxes and open branches on the way."
        | "Spannungsfrei den Schleifenwiderstand des Strangs bei gebrücktem fernem Ende und seine Kapazität bei offenem. Stimmt beides: Verteiler und offene Abzweige auf dem Weg zählen.",
    english:
        /// # What it checks
        /// In a family that states bands for its signals, the greatest insertion loss in each band from every door and
        /// management station to every station that it can call, against the band's budget. The pair is computed as a tree
        /// of lossy lines with every box, feed choke, terminator, surge protector and waiting station on it: three times, with
        /// all cables as long as stated and at the upper end of the length tolerance, both hot and at the upper tolerance of their
        /// resistance, and at the lower end, cold and at the lower tolerance. The worst counts, and is named.
        ///
        /// # Why it matters
        /// Every voltage is right, and the picture is snow or the call is lost: too much cable, too many boxes one behind the
        /// other, or an open branch that swallows one frequency.
        ///
        /// # Example
        /// A-504 hears the gate with a loss of 48.2 dB at 8 MHz; the family allows 45 dB.
        ///
        /// # What to do
        /// Fewer boxes and branches on the way, a shorter way, a cable with less loss; a terminator on an open end
        /// where the family has one. Thicker conductors help the voltage more than the signal, a doubled pair hurts it.
    german:
        /// # Was geprüft wird
        /// In einer Gerätefamilie, die Bänder für ihre Signale nennt: die größte Dämpfung in jedem Band von jeder
        /// Türstation und Zentrale zu jeder Station, die sie rufen kann, gegen das Erlaubte des Bands. Das Paar
        /// wird als Baum verlustbehafteter Leitungen gerechnet, mit jedem Verteiler, jeder Speisedrossel, jedem
        /// Abschluss, Überspannungsschutz und jeder wartenden Station daran, und das dreimal: alle Leitungen so lang wie
        /// angegeben und am oberen Ende der Längentoleranz, beide warm und an der oberen Toleranz ihres Widerstands, und am
        /// unteren Ende, kalt und an der unteren Toleranz. Das Ungünstigste zählt und ist genannt.
        ///
        /// # Warum es zählt
        /// Jede Spannung stimmt, und das Bild ist Schnee oder der Ruf geht verloren: zu viel Leitung, zu viele
        /// Verteiler hintereinander, oder ein offener Abzweig, der eine Frequenz verschluckt.
        ///
        /// # Beispiel
        /// A-504 hört das Tor mit 48,2 dB Dämpfung bei 8 MHz; die Familie verträgt 45 dB.
        ///
        /// # Was zu tun ist
        /// Weniger Verteiler und Abzweige unterwegs, ein kürzerer Weg, eine Leitung mit weniger Dämpfung; ein
        /// Abschluss an einem offenen Ende, wo die Familie einen hat. Dickere Adern helfen der Spannung mehr als
        /// dem Signal, ein doppeltes Paar schadet ihm.
}
