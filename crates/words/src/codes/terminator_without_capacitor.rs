//! `terminator-without-capacitor`

code! {
    "terminator-without-capacitor"
    title: "The bus voltage heats a terminator" | "Die Busspannung heizt einen Abschluss",
    short: "terminator gets hot" | "Abschluss wird heiß",
    message:
        "the terminator of run {element} has no series capacitor: {voltage} on {resistance} heats it with {value}"
        | "Der Abschluss des Strangs {element} hat keinen Kondensator in Reihe: {voltage} an {resistance} heizen ihn mit {value}",
    hint: "take a terminator with a series capacitor" | "einen Abschluss mit Kondensator in Reihe nehmen",
    measure:
        "With the power off, the resistance across the terminator alone: near 100 ohm at once means that there is no capacitor; with one the reading climbs to open."
        | "Spannungsfrei den Widerstand über dem Abschluss allein: Sofort um 100 Ohm heißt, dass kein Kondensator da ist; mit einem steigt die Anzeige bis offen.",
    english:
        /// # What it checks
        /// Terminators without the series capacitor that keeps the bus voltage away from their resistor: the
        /// power U²/R that the nominal voltage of the bus turns into heat there (Joule's law). Above 0.5 W it
        /// is an error (what a small resistor in a wall box stands: common practice, no source), below it a piece
        /// of advice, since the direct current of the terminator is not part of the computed voltages.
        ///
        /// Judged where `terminator_capacitor = false`; where the run does not say, and the family states
        /// a resistance but no capacitance for its terminator, it is not judged.
        ///
        /// # Why it matters
        /// 100 ohm across 48 V takes 0.48 A and burns 23 W: more than the rest of the chain together, in a wall
        /// box, day and night. A data-cable or aerial terminator has no capacitor.
        ///
        /// # Example
        /// A-R3 is closed with a plain resistor of 100 ohm on a bus of 48 V.
        ///
        /// # What to do
        /// Use the family's own terminator, or put its capacitor in series with the resistor.
    german:
        /// # Was geprüft wird
        /// Abschlüsse ohne den Kondensator in Reihe, der die Busspannung von ihrem Widerstand fernhält: die
        /// Leistung U²/R, die die Nennspannung des Busses dort in Wärme umsetzt (Joulesches Gesetz). Über 0,5 W ist
        /// es ein Fehler (was ein kleiner Widerstand in einer Wanddose verträgt: üblich, keine Quelle), darunter
        /// ein Hinweis, da der Gleichstrom des Abschlusses nicht in den gerechneten Spannungen steckt.
        ///
        /// Beurteilt, wo `terminator_capacitor = false` steht; wo der Strang nichts sagt und die Familie für ihren
        /// Abschluss einen Widerstand, aber keine Kapazität nennt, wird nicht geurteilt.
        ///
        /// # Warum es zählt
        /// 100 Ω an 48 V nehmen 0,48 A und verheizen 23 W: mehr als die übrige Kette zusammen, in einer Wanddose,
        /// Tag und Nacht. Ein Abschluss für Datenleitungen oder Antennen hat keinen Kondensator.
        ///
        /// # Beispiel
        /// A-R3 ist mit einem einfachen Widerstand von 100 Ω an einem Bus mit 48 V abgeschlossen.
        ///
        /// # Was zu tun ist
        /// Den Abschluss der Familie nehmen, oder ihren Kondensator in Reihe mit dem Widerstand legen.
}
