//! `floors-upside-down`

code! {
    "floors-upside-down"
    title: "Floors seem to be written from the top down" | "Geschosse scheinen von oben nach unten geschrieben",
    message:
        "look at this: the floors of {element} begin with {first} and end with {last}; they are written from the lowest up"
        | "bitte ansehen: Die Geschosse von {element} beginnen mit {first} und enden mit {last}; sie stehen vom untersten an",
    hint: "turn the list round: {last} first, {first} last" | "die Liste umdrehen: {last} zuerst, {first} zuletzt",
    english:
        /// Floors are written from the lowest to the highest. Ranges of dwellings fill them in this order, risers are reckoned and drawn by it. The
        /// names of these tell levels, and each is lower than the one before it.
        ///
        /// Turn the list round. If the names mean something else, nothing is to be done.
    german:
        /// Geschosse stehen vom untersten zum obersten. Bereiche von Wohnungen füllen sie in dieser Folge, Steigwege werden danach gerechnet und
        /// gezeichnet. Die Namen hier nennen Höhen, und jede liegt unter der davor.
        ///
        /// Die Liste umdrehen. Bedeuten die Namen etwas anderes, ist nichts zu tun.
}
