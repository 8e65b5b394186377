//! `measured-loop-differs`

code! {
    "measured-loop-differs"
    title: "The measured loop is not that of the stated cable" | "Die gemessene Schleife ist nicht die der angegebenen Leitung",
    short: "loop differs" | "Schleife weicht ab",
    message:
        "the loop of run {element} measures {value}, where {length} of {cable} have {expected}"
        | "Die Schleife des Strangs {element} misst {value}; {length} {cable} haben {expected}",
    label: "<{excess} of difference>" | "<{excess} Unterschied>",
    hint: "<look for {candidates:or}>" | "<suchen: {candidates:or}>",
    measure:
        "The loop once more: bridge the far end with a short wire and subtract the ohms of the test leads. Then the loop from a stop in the middle. Then the capacitance with the far end open."
        | "Die Schleife noch einmal: das ferne Ende mit kurzem Draht brücken und die Ohm der Messleitungen abziehen. Dann die Schleife von einem Halt in der Mitte. Dann die Kapazität bei offenem fernem Ende.",
    english:
        /// # What it checks
        /// The measured loop resistance of a run against what its cable, lengths and joints give at the usual
        /// temperature, surge protectors left out. Told if it is more by over 15 % and over 1 ohm, which is what joints make of a
        /// sound cable, or less by over 15 % and over the joints' share with 0.2 ohm for the meter and its leads (common practice, no
        /// source). An error if it is less than a fifth of what is expected, or than the joints alone: no cable has that.
        ///
        /// # Why it matters
        /// The voltages are computed from the measured value, so they hold. But a loop that is too high may be
        /// a bad joint, and bad joints get worse; one that is too low often is not the cable one thinks, or
        /// was short-circuited before its end.
        ///
        /// A joint, a thinner conductor and a longer cable look alike to an ohmmeter. Capacitance tells them apart: it
        /// grows with the length alone. Where it was measured, the candidates that it excludes are left out.
        ///
        /// # Example
        /// A-R3 was measured at 7.9 ohm; 38 m of 0.8 mm pair have 2.6 ohm.
        ///
        /// # What to do
        /// Measure again from a stop in the middle: a joint adds its ohms in one place, a thinner wire everywhere.
        /// Then mend the joint, or correct the cable or the lengths in the file.
    german:
        /// # Was geprüft wird
        /// Den gemessenen Schleifenwiderstand eines Strangs gegen den, den seine Leitung, Längen und Verbindungen
        /// bei üblicher Temperatur geben, ohne Überspannungsschutz. Gemeldet, wenn er um mehr als 15 % und mehr als 1 Ω
        /// darüber liegt, was Verbindungen aus einer gesunden Leitung machen, oder um mehr als 15 % und mehr als den Anteil der
        /// Verbindungen mit 0,2 Ω für Messgerät und Messleitungen darunter (üblich, keine Quelle). Ein Fehler, wenn er unter einem
        /// Fünftel des Erwarteten liegt oder unter den Verbindungen allein: Keine Leitung hat das.
        ///
        /// # Warum es zählt
        /// Die Spannungen sind mit dem gemessenen Wert gerechnet, also stimmen sie. Aber eine zu hohe Schleife kann
        /// eine schlechte Verbindung sein, und schlechte Verbindungen werden schlechter; eine zu niedrige ist oft
        /// nicht die Leitung, für die man sie hält, oder war vor ihrem Ende kurzgeschlossen.
        ///
        /// Eine Verbindung, eine dünnere Ader und eine längere Leitung sehen für ein Ohmmeter gleich aus. Die
        /// Kapazität unterscheidet sie: Sie wächst allein mit der Länge. Wo sie gemessen wurde, fehlen die
        /// Ursachen, die sie ausschließt.
        ///
        /// # Beispiel
        /// A-R3 wurde mit 7,9 Ω gemessen; 38 m Paar 0,8 mm haben 2,6 Ω.
        ///
        /// # Was zu tun ist
        /// Von einem Halt in der Mitte noch einmal messen: Eine Verbindung gibt ihre Ohm an einer Stelle dazu, ein
        /// dünnerer Draht überall. Dann die Verbindung richten, oder Leitung oder Längen in der Datei berichtigen.
}
