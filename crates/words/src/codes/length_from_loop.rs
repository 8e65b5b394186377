//! `length-from-loop`

code! {
    "length-from-loop"
    title: "A length that follows from the measured loop" | "Eine Länge aus der gemessenen Schleife",
    message:
        "run {run} is taken as {length} long: that much {cable} has the measured loop of {loop}<; its {sections:section|sections} are taken as equally long>"
        | "Strang {run} gilt als {length} lang: So viel {cable} hat die gemessene Schleife von {loop}<; seine {sections:Abschnitt|Abschnitte} gelten als gleich lang>",
    hint:
        "if the cable is another one, so is the length; where you know the lengths, state them"
        | "ist die Leitung eine andere, so auch die Länge; wo die Längen bekannt sind, sie angeben",
    english:
        /// # What it checks
        /// Runs that state no length but the loop resistance that was measured. The length is that at which the stated cable
        /// has this loop at the usual temperature, its terminals and joints taken off: L = (R - J) p / (2 r), with
        /// r of one conductor by IEC 60228 where its table has the size, and p pairs in parallel. The length counts for the
        /// signal, the family's longest run, the cable list and the drawing; voltages use the loop itself.
        ///
        /// # Why it matters
        /// Nobody knows how long an old cable in a wall is, and nobody needs to guess. But a bad joint reads as more
        /// cable, and a thicker cable than stated as less.
        ///
        /// # Example
        /// 0.70 ohm measured on flexible 1.5 mm² are 24.8 m.
        ///
        /// # What to do
        /// Measure the capacitance with the far end open too, which tells the length without the joints. Where the length is
        /// known, state it: a loop that does not fit it is then told.
    german:
        /// # Was geprüft wird
        /// Stränge, die keine Länge angeben, aber die gemessene Schleife. Die Länge ist die, bei der die angegebene Leitung bei
        /// der üblichen Temperatur diese Schleife hat, Klemmen und Verbindungen abgezogen: L = (R - J) p / (2 r), mit r einer
        /// Ader nach IEC 60228, wo ihre Tabelle den Querschnitt hat, und p parallelen Paaren. Die Länge zählt für das Signal,
        /// die größte Länge der Gerätefamilie, die Leitungsliste und die Zeichnung; Spannungen rechnen mit der Schleife selbst.
        ///
        /// # Warum es zählt
        /// Niemand weiß, wie lang eine alte Leitung in der Wand ist, und niemand muss raten. Aber eine schlechte Verbindung liest sich
        /// wie mehr Leitung, eine dickere Leitung als angegeben wie weniger.
        ///
        /// # Beispiel
        /// 0,70 Ohm, gemessen an flexiblen 1,5 mm², sind 24,8 m.
        ///
        /// # Was zu tun ist
        /// Auch die Kapazität bei offenem fernem Ende messen, die die Länge ohne die Verbindungen sagt. Wo die Länge bekannt ist,
        /// sie angeben: eine Schleife, die nicht dazu passt, wird dann gemeldet.
}
