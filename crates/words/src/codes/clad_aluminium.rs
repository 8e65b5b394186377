//! `clad-aluminium`

code! {
    "clad-aluminium"
    title: "Conductors of aluminium" | "Adern aus Aluminium",
    short: "aluminium conductors" | "Adern aus Aluminium",
    message: "{cable} is {material}, on {elements}" | "{cable} ist {material}, an {elements}",
    hint:
        "the figures count it; terminals need care"
        | "die Werte rechnen damit; die Klemmen brauchen Sorgfalt",
    measure:
        "The loop with the far end bridged, and the diameter of one bare conductor: at the same size clad aluminium reads one and a half times what copper does."
        | "Die Schleife bei gebrücktem fernem Ende und den Durchmesser einer blanken Ader: Bei gleichem Maß zeigt kupferplattiertes Aluminium das Anderthalbfache von Kupfer.",
    english:
        /// # What it checks
        /// Runs and lock cables of copper-clad aluminium or aluminium.
        ///
        /// # Why it matters
        /// Clad aluminium has about 1.55 to 1.6 times the resistance of copper of the same size (ASTM B566: at most
        /// 0.02743 ohm mm²/m with 10 % of copper, 0.02676 with 15 %, against 0.017241 of copper); it is
        /// sold as data cable at the copper price. Latchline counts with that resistance, but not with what
        /// happens at the joints: aluminium oxidises where the cladding is nicked, creeps away from under the
        /// screw and breaks when it is bent twice. These joints fail one after the other, years later. It is not
        /// allowed in balanced-pair cable by TIA, ISO/IEC and CENELEC standards.
        ///
        /// # Example
        /// The installer bought "CCA" cable for A-R1 to A-R6.
        ///
        /// # What to do
        /// Use copper. Where it is in the walls already, measure the loop, make as few joints as possible with
        /// connectors made for aluminium, and measure again after a year.
    german:
        /// # Was geprüft wird
        /// Stränge und Schlossleitungen aus kupferplattiertem Aluminium oder Aluminium.
        ///
        /// # Warum es zählt
        /// Plattiertes Aluminium hat etwa das 1,55- bis 1,6-Fache des Widerstands von Kupfer gleicher Größe (ASTM
        /// B566: höchstens 0,02743 Ω mm²/m mit 10 % Kupfer, 0,02676 mit 15 %, gegen 0,017241 bei Kupfer); es wird
        /// als Datenleitung zum Kupferpreis verkauft. Latchline rechnet mit diesem Widerstand, aber nicht mit dem,
        /// was an den Verbindungen geschieht: Aluminium oxidiert, wo die Plattierung verletzt ist, kriecht unter
        /// der Schraube weg und bricht, wenn man es zweimal biegt. Diese Verbindungen versagen eine nach der
        /// anderen, Jahre später. In Leitungen mit symmetrischen Paaren lassen Normen von TIA, ISO/IEC und CENELEC
        /// es nicht zu.
        ///
        /// # Beispiel
        /// Der Errichter hat für A-R1 bis A-R6 „CCA“-Leitung gekauft.
        ///
        /// # Was zu tun ist
        /// Kupfer nehmen. Wo es schon in der Wand liegt: die Schleife messen, so wenige Verbindungen wie möglich
        /// mit Verbindern für Aluminium machen und nach einem Jahr nachmessen.
}
