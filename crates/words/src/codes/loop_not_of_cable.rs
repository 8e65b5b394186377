//! `loop-not-of-cable`

code! {
    "loop-not-of-cable"
    title: "A measured loop is far from that of its cable" | "Eine gemessene Schleife ist weit von der ihrer Leitung",
    message: "{loop} was measured; so much of {cable} has about {expected}" | "{loop} wurden gemessen; so viel {cable} hat etwa {expected}",
    english:
        /// The loop that was measured of an existing cable is less than half or more than twice of what its length and its cable have at 20 °C, and
        /// the difference is above 1 ohm (common practice, no source). It is a slip of the decimal point, another cable, another length, or a bad
        /// joint.
        ///
        /// Measure again with the far end bridged, and look at cable and length.
    german:
        /// Die gemessene Schleife einer vorhandenen Leitung ist weniger als die Hälfte oder mehr als das Doppelte dessen, was ihre Länge und Art bei
        /// 20 °C haben, und der Unterschied ist über 1 Ohm (übliche Praxis, keine Quelle). Es ist ein verrutschtes Komma, eine andere Leitung, eine
        /// andere Länge oder eine schlechte Klemme.
        ///
        /// Bei gebrücktem fernem Ende noch einmal messen und Leitung und Länge ansehen.
}
