//! `alarm-cable-not-watched`

code! {
    "alarm-cable-not-watched"
    title: "An alarm that a cut cable silences" | "Eine durchtrennte Meldeleitung bleibt unbemerkt",
    short: "alarm cable not watched" | "Meldeleitung unbewacht",
    message:
        "nobody notices when the cable of the {kind} input of {element} is cut: its contact is normally open"
        | "Niemand merkt, wenn die Meldeleitung ({kind}) von {element} durchtrennt wird: Der Kontakt ist in Ruhe offen",
    hint:
        "wire the normally closed side, or fit a resistor at the contact"
        | "den Öffner des Kontakts verdrahten, oder einen Widerstand am Kontakt einbauen",
    english:
        /// # What it checks
        /// Alarm inputs whose contact is normally open, without a resistor at the end of the line.
        ///
        /// # Why it matters
        /// A cut or broken cable then looks like all is well: whoever cuts it first is never reported, and a fire
        /// alarm whose cable has come off never releases the door. A normally closed contact opens the loop when the
        /// cable is cut; a resistor at the contact tells open and short from both states (common practice, no source).
        ///
        /// # Example
        /// A tamper contact with `contact = "normally-open"`.
        ///
        /// # What to do
        /// Take the normally closed side of the contact (`contact = "normally-closed"`), or fit the resistor at the far
        /// end where the door station provides for it (`end_of_line_resistor = true`).
    german:
        /// # Was geprüft wird
        /// Meldeeingänge, deren Kontakt in Ruhe offen ist, ohne Widerstand am Ende der Leitung.
        ///
        /// # Warum es zählt
        /// Eine durchtrennte Leitung sieht dann aus, als wäre alles in Ordnung: Wer sie zuerst durchtrennt, wird
        /// nie gemeldet, und eine Brandmeldeanlage (BMA), deren Leitung abgefallen ist, gibt die Tür nie frei. Ein
        /// Öffner unterbricht die Schleife, wenn die Leitung durchtrennt wird; ein Widerstand am Kontakt
        /// unterscheidet Unterbrechung und Kurzschluss von beiden Zuständen (üblich, keine Quelle).
        ///
        /// # Beispiel
        /// Ein Sabotagekontakt mit `contact = "normally-open"`.
        ///
        /// # Was zu tun ist
        /// Den Öffner des Kontakts nehmen (`contact = "normally-closed"`), oder den Widerstand am fernen Ende
        /// einbauen, wo die Türstation ihn vorsieht (`end_of_line_resistor = true`).
}
