//! `floors-out-of-order`

code! {
    "floors-out-of-order"
    title: "A riser takes its floors in another order" | "Ein Steigweg nimmt seine Geschosse in anderer Folge",
    message: "look at this: the riser goes from {from} to {to} and back to {between}, which lies between them" | "bitte ansehen: Der Steigweg geht von {from} nach {to} und zurück nach {between}, das dazwischen liegt",
    english:
        /// A route passes a floor by, and a place on that floor is reached from the far end: floors 1, 3, 2. A cable that is pulled so goes up
        /// and down again. Mostly two places were exchanged, or a floor was written wrong.
        ///
        /// Look at both routes and at the floors of their places. If the riser goes so, nothing is to be done.
    german:
        /// Ein Weg geht an einem Geschoss vorbei, und ein Ort in diesem Geschoss wird vom fernen Ende her erreicht: Geschosse 1, 3, 2. Eine
        /// Leitung, die so gezogen wird, geht hinauf und wieder hinunter. Meist sind zwei Orte vertauscht, oder ein Geschoss ist falsch geschrieben.
        ///
        /// Beide Wege und die Geschosse ihrer Orte ansehen. Geht der Steigweg so, ist nichts zu tun.
}
