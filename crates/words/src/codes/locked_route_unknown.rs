//! `locked-route-unknown`

code! {
    "locked-route-unknown"
    title: "There is no such route to lock" | "Diesen Weg gibt es nicht",
    message: "no row of the routes joins {from} and {to}" | "Keine Zeile der Wege verbindet {from} und {to}",
    hint: "lock each route of the way in a row of its own" | "jeden Weg der Strecke in einer eigenen Zeile festlegen",
    english:
        /// A locked route is one row of the sheet of routes, named by its two ends. A way over several places is locked route by route.
    german:
        /// Ein festgelegter Weg ist eine Zeile der Wege, benannt nach seinen beiden Enden. Eine Strecke über mehrere Orte wird Weg für Weg
        /// festgelegt.
}
