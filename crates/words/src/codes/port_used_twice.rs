//! `port-used-twice`

code! {
    "port-used-twice"
    title: "Two runs start at the same port" | "Zwei Stränge beginnen am selben Abgang",
    message:
        "port {port} is the start of two runs: {other_run} and {run}"
        | "Am Abgang {port} beginnen zwei Stränge: {other_run} und {run}",
    label: "already taken by {other_run}" | "schon von {other_run} belegt",
    hint:
        "use another port, or split the run with a branch box"
        | "einen anderen Abgang nehmen, oder den Strang mit einer Abzweigdose teilen",
    english:
        /// One port takes one run. To split a run use a branch box, or let the second run start from a station or box of the first. Both runs are shown.
    german:
        /// Ein Abgang nimmt einen Strang. Um einen Strang zu teilen, eine Abzweigdose nehmen, oder den zweiten an einer Station oder einem Verteiler des ersten beginnen lassen. Beide Stränge werden gezeigt.
}
