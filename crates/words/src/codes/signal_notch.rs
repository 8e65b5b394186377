//! `signal-notch`

code! {
    "signal-notch"
    title: "A notch in the band of a signal" | "Eine Kerbe im Band eines Signals",
    short: "notch in the signal" | "Kerbe im Signal",
    message:
        "{element} misses a part of the {band} from {caller}: {value} more are lost at {frequency} than beside it ({lengths}); {limit} are allowed"
        | "{element} hat von {caller} eine Kerbe von {value} bei {frequency} im Band {band} ({lengths}); erlaubt sind {limit}",
    label:
        "<as an open branch of about {branch} makes>"
        | "<wie sie ein offener Abzweig von etwa {branch} macht>",
    hint:
        "wire the branch as part of the chain, shorten it, or close its end with a terminator"
        | "den Abzweig als Teil der Kette verdrahten, kürzen, oder sein Ende abschließen",
    measure:
        "With the power off, the capacitance of the run with its far end open: what is more than planned is a branch that nobody drew. Then the length of the longest open branch."
        | "Spannungsfrei die Kapazität des Strangs bei offenem fernem Ende: Was mehr ist als geplant, ist ein Abzweig, den niemand gezeichnet hat. Dann die Länge des längsten offenen Abzweigs.",
    english:
        /// # What it checks
        /// In a band for which the family states a greatest ripple, dips of the level between two peaks that are deeper than
        /// it. The dips are looked for at closely spaced frequencies and narrowed between them; the summary says
        /// whether the spacing was kept.
        ///
        /// # Why it matters
        /// An open branch of a quarter of a wavelength is a short at its foot (f = v / 4 l). A picture loses its colour or
        /// tears, data of one carrier are lost, and moving the station by a few metres moves the fault.
        ///
        /// # Example
        /// A-12 has a notch of 14 dB at 1.2 MHz: an open branch of about 39 m.
        ///
        /// # What to do
        /// Wire the branch as part of the chain, put a terminator on its end where the family has one, or shorten it.
    german:
        /// # Was geprüft wird
        /// In einem Band, für das die Gerätefamilie eine größte Schwankung nennt: Einbrüche des Pegels zwischen
        /// zwei Spitzen, die tiefer sind. Sie werden bei eng liegenden Frequenzen gesucht und dazwischen
        /// eingegrenzt; die Übersicht sagt, ob der Abstand eingehalten wurde.
        ///
        /// # Warum es zählt
        /// Ein offener Abzweig von einer Viertelwellenlänge ist an seinem Fuß ein Kurzschluss (f = v / 4 l). Ein
        /// Bild verliert seine Farbe oder zerreißt, Daten eines Trägers gehen verloren, und die Station um ein paar
        /// Meter zu versetzen versetzt den Fehler.
        ///
        /// # Beispiel
        /// A-12 hat eine Kerbe von 14 dB bei 1,2 MHz: ein offener Abzweig von etwa 39 m.
        ///
        /// # Was zu tun ist
        /// Den Abzweig als Teil der Kette verdrahten, an sein Ende einen Abschluss setzen, wo die Familie einen
        /// hat, oder ihn kürzen.
}
