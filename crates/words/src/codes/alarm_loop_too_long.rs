//! `alarm-loop-too-long`

code! {
    "alarm-loop-too-long"
    title: "The loop of an alarm input has too much resistance" | "Die Meldeschleife hat zu viel Widerstand",
    short: "alarm loop too long" | "Meldeschleife zu lang",
    message:
        "the loop of the {kind} input of {element} has {value}; {station} reads up to {limit}"
        | "Die Meldeschleife ({kind}) von {element} hat {value}; {station} liest bis {limit}",
    hint: "thicker conductors, or a shorter way" | "dickere Adern, oder ein kürzerer Weg",
    measure:
        "With the cable taken off the door station's input, its loop resistance with the contact closed."
        | "Die Leitung vom Eingang der Türstation abgeklemmt: ihren Schleifenwiderstand bei geschlossenem Kontakt.",
    english:
        /// # What it checks
        /// The resistance of the cable to every contact at an alarm input, both conductors with their joints, hot,
        /// long and at the upper end of tolerance, against the greatest at which the door station still reads a closed
        /// loop (`alarm_loop_resistance`). Without cable, length or that figure it is not judged.
        ///
        /// # Why it matters
        /// A loop that is read as open is an alarm that stands for ever and is switched off in the end; a contact
        /// that closes on alarm is never seen.
        ///
        /// # Example
        /// 150 m of 0.5 mm pair, 27 ohm, on an input that reads up to 20 ohm.
        ///
        /// # What to do
        /// Thicker conductors, a shorter way, or an input that reads more.
    german:
        /// # Was geprüft wird
        /// Der Widerstand der Leitung zu jedem Kontakt an einem Meldeeingang, beide Adern mit ihren Verbindungen,
        /// warm, lang und am oberen Ende der Toleranz, gegen den größten, bei dem die Türstation noch eine
        /// geschlossene Schleife liest (`alarm_loop_resistance`). Ohne Leitung, Länge oder diesen Wert wird nicht
        /// geurteilt.
        ///
        /// # Warum es zählt
        /// Eine Schleife, die als offen gelesen wird, ist eine Meldung, die für immer ansteht und am Ende
        /// abgeschaltet wird; ein Kontakt, der zur Meldung schließt, wird nie gesehen.
        ///
        /// # Beispiel
        /// 150 m Paar 0,5 mm, 27 Ω, an einem Eingang, der bis 20 Ω liest.
        ///
        /// # Was zu tun ist
        /// Dickere Adern, ein kürzerer Weg, oder ein Eingang, der mehr liest.
}
