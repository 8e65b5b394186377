//! `route-unlike-others`

code! {
    "route-unlike-others"
    title: "A route is far longer or shorter than others of its riser" | "Ein Weg ist weit länger oder kürzer als andere seines Steigwegs",
    message: "look at this: the route from {from} to {to} has {length} a floor, others of its building about {usual}" | "bitte ansehen: Der Weg von {from} nach {to} hat {length} je Geschoss, andere in seinem Gebäude etwa {usual}",
    english:
        /// From floor to floor this route has five times as many metres as the middle one of its building, or a fifth of them (common practice, no
        /// source). It may be so; mostly it is a slip of the decimal point, or a length in another unit.
        ///
        /// Look at the length. If it holds, nothing is to be done.
    german:
        /// Von Geschoss zu Geschoss hat dieser Weg fünfmal so viele Meter wie der mittlere seines Gebäudes, oder ein Fünftel davon (übliche Praxis,
        /// keine Quelle). Das kann sein; meist ist es ein verrutschtes Komma oder eine Länge in einer anderen Einheit.
        ///
        /// Die Länge ansehen. Stimmt sie, ist nichts zu tun.
}
