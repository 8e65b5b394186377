//! `section-shorter-than-climb`

code! {
    "section-shorter-than-climb"
    title: "A cable shorter than the way up" | "Eine Leitung kürzer als der Weg nach oben",
    short: "shorter than the climb" | "kürzer als der Aufstieg",
    message:
        "the cable of run {element} from {start} to {stop} is {value} long, but the two are {floors} floors apart: {limit} at the least"
        | "Strang {element} ist von {start} bis {stop} {value} lang, die beiden sind aber {floors} Geschosse auseinander: mindestens {limit}",
    hint: "look at the length and its unit, at the floors of both ends, and at floor_height of the building"
        | "Länge und Einheit ansehen, die Geschosse beider Enden und floor_height des Gebäudes",
    english:
        /// # What it checks
        /// A way of a cable between two stops of one building whose floors are stated, against the storeys that lie wholly
        /// between them: one less than the floors that the two are apart, times `floor_height`.
        ///
        /// # Why it matters
        /// 1.2 m typed for 12 m costs hardly any voltage and loses no picture, so that everything passes on paper; the cable
        /// that is bought and cut is too short.
        ///
        /// # Example
        /// From the cellar to the fourth floor with a length of 1.2 m.
        ///
        /// # What to do
        /// Look at the length, at its unit, and at the floors of both ends. If all are right, accept it with a reason.
    german:
        /// # Was geprüft wird
        /// Der Weg einer Leitung zwischen zwei Stellen eines Gebäudes, deren Geschosse angegeben sind, gegen die Geschosse,
        /// die ganz dazwischen liegen: eines weniger als die Geschosse, um die sie auseinander liegen, mal `floor_height`.
        ///
        /// # Warum es zählt
        /// 1,2 m statt 12 m kosten kaum Spannung und dämpfen kein Bild, also hält auf dem Papier alles; die Leitung, die
        /// gekauft und geschnitten wird, ist zu kurz.
        ///
        /// # Beispiel
        /// Vom Keller in das vierte Obergeschoss mit einer Länge von 1,2 m.
        ///
        /// # Was zu tun ist
        /// Länge, Einheit und die Geschosse beider Enden ansehen. Stimmt alles, mit Begründung akzeptieren.
}
