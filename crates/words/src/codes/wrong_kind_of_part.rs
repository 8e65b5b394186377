//! `wrong-kind-of-part`

code! {
    "wrong-kind-of-part"
    title: "This part is of another kind" | "Dieses Teil ist von anderer Art",
    message:
        "\"{name}\" is {found:a}; {expected:a} is needed here< and at {others}>"
        | "„{name}“ passt hier nicht: {found} statt {expected}<; auch an {others}>",
    label: "must be {expected:a}" | "gebraucht: {expected}",
    english:
        /// The part exists, but cannot do this job.
        ///
        /// A part that is given to several is told once, with all of them.
        ///
        /// Example: the model of an indoor station as an entrance's door station, or a branch box under [distributors].
    german:
        /// Das Teil gibt es, aber es kann diese Aufgabe nicht.
        ///
        /// Ein Teil, das mehrere haben, wird einmal genannt, mit ihnen allen.
        ///
        /// Beispiel: das Modell einer Innenstation als Türstation eines Eingangs, oder eine Abzweigdose unter [distributors].
}
