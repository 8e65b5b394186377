//! `beside-mains`

code! {
    "beside-mains"
    title: "Extra-low voltage beside mains without separation" | "Kleinspannung ungetrennt neben Netzspannung",
    short: "beside mains" | "neben Netzspannung",
    message:
        "run {element} lies beside mains without separation"
        | "Strang {element} liegt ungetrennt neben Netzleitungen",
    label: "<{cable} is not insulated for mains>" | "<{cable} ist nicht für Netzspannung isoliert>",
    hint:
        "keep it apart from mains, or take a cable insulated for mains voltage; earth a screen at one end only, at the supply"
        | "vom Netz getrennt führen, oder eine für Netzspannung isolierte Leitung nehmen; einen Schirm nur an einem Ende erden, am Netzteil",
    measure:
        "The insulation of each leg to earth, electronics taken off; then with a voltmeter for alternating current whether mains is induced on the open pair."
        | "Die Isolation jeder Ader gegen Erde, Elektronik abgeklemmt; dann mit einem Wechselspannungsmesser, ob auf dem offenen Paar Netzspannung eingekoppelt ist.",
    english:
        /// # What it checks
        /// Runs that share a route with mains cables without separation (`beside_mains = true`) on a cable that is
        /// not insulated for mains voltage: a warning, or a piece of advice if the cable has a screen.
        ///
        /// # Why it matters
        /// If the mains insulation fails there, mains voltage gets onto terminals that people touch, in
        /// every flat at once. BS 7671 regulation 528.1 lets circuits of the two voltage bands share an enclosure
        /// only if all of them are insulated for the highest voltage present, or an earthed screen or a
        /// partition keeps them apart; IEC 60364 and most national codes ask for something of the kind. Besides, mains
        /// hums on the pair: EN 50174-2 gives distances for data cables (200 mm between unscreened cables
        /// without a divider in its edition of 2000; later editions compute them otherwise).
        ///
        /// # Example
        /// A-R2 lies in the trunking of the lighting circuit.
        ///
        /// # What to do
        /// Give it a route of its own, or a partition; let the responsible electrician decide by the code that
        /// holds on site. A screen protects only if it is earthed: at one end, where the supply stands, and insulated at the other, since earthed
        /// at both it carries stray currents of the mains (common practice, no source).
    german:
        /// # Was geprüft wird
        /// Stränge, die ungetrennt mit Netzleitungen in einer Trasse liegen (`beside_mains = true`), auf einer
        /// Leitung, die nicht für Netzspannung isoliert ist: eine Warnung, oder ein Hinweis, wenn die Leitung einen
        /// Schirm hat.
        ///
        /// # Warum es zählt
        /// Versagt dort die Isolation der Netzleitung, liegt Netzspannung an Klemmen, die Menschen berühren, in
        /// jeder Wohnung zugleich. BS 7671, Abschnitt 528.1, lässt Stromkreise beider Spannungsbänder in einer
        /// Umhüllung nur zu, wenn alle für die höchste vorkommende Spannung isoliert sind oder ein geerdeter Schirm
        /// oder eine Trennwand sie trennt; IEC 60364 und die meisten nationalen Regeln verlangen Ähnliches.
        /// Außerdem brummt das Netz auf dem Paar: EN 50174-2 gibt Abstände für Datenleitungen (200 mm zwischen
        /// ungeschirmten Leitungen ohne Trennsteg in der Ausgabe von 2000; spätere rechnen sie anders).
        ///
        /// # Beispiel
        /// A-R2 liegt im Kanal des Lichtstromkreises.
        ///
        /// # Was zu tun ist
        /// Eine eigene Trasse oder eine Trennwand; die verantwortliche Elektrofachkraft entscheidet nach der Regel,
        /// die vor Ort gilt. Ein Schirm schützt nur geerdet: an einem Ende, wo das Netzteil steht, und am anderen isoliert, denn an beiden
        /// geerdet führt er vagabundierende Ströme des Netzes (übliche Praxis, ohne Quelle).
}
