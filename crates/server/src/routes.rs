//! Which address leads where.

use crate::guard::{LARGEST_BODY, guard};
use crate::office::Office;
use crate::pages::questions::{Battery, Lock, Mix, Reach, Switches, asked, record};
use crate::{assets, live, pages};
use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::middleware::from_fn_with_state;
use axum::routing::{get, post};
use std::sync::Arc;

/// All of them, behind the guard.
pub(crate) fn routes(office: Arc<Office>) -> Router {
    Router::new()
        .route("/", get(pages::sites::first))
        .route("/sites", get(pages::sites::list))
        .route("/sites/new", post(pages::sites::create))
        .route("/survey.xlsx", get(pages::sites::survey_template))
        .route("/locale", get(pages::sites::locale))
        .route("/sites/{name}", get(pages::site::page))
        .route("/sites/{name}/live", get(live::live))
        .route("/sites/{name}/drawing", get(pages::site::drawing))
        .route("/sites/{name}/element", get(pages::details::details))
        .route("/sites/{name}/table", get(pages::table::table))
        .route("/sites/{name}/text", get(pages::text::text))
        .route("/sites/{name}/edit", post(pages::edits::edit))
        .route("/sites/{name}/preview", post(pages::edits::preview))
        .route("/sites/{name}/undo", post(pages::edits::undo))
        .route("/sites/{name}/redo", post(pages::edits::redo))
        .route("/sites/{name}/pass-over", post(pages::edits::pass_over))
        .route("/sites/{name}/history", get(pages::history::history))
        .route("/sites/{name}/compare", get(pages::history::compare))
        .route("/sites/{name}/fault", get(pages::fault::page))
        .route("/sites/{name}/documents", get(pages::documents::documents))
        .route("/sites/{name}/documents/{file}", get(pages::documents::file))
        .route("/sites/{name}/phone", get(pages::documents::phone))
        .route("/questions", get(asked::page::<Reach>))
        .route("/questions/lock", get(asked::page::<Lock>))
        .route("/questions/battery", get(asked::page::<Battery>))
        .route("/questions/mix", get(asked::page::<Mix>))
        .route("/questions/switches", get(asked::page::<Switches>))
        .route("/questions/keep", post(record::keep))
        .route("/questions/record", get(record::list))
        .route("/questions/record/delete", post(record::delete))
        .route("/questions/record/{number}", get(record::one))
        .route("/assets/{version}/{name}", get(assets::file))
        .fallback(pages::shell::not_found)
        .layer(DefaultBodyLimit::max(LARGEST_BODY))
        .layer(from_fn_with_state(Arc::clone(&office), guard))
        .with_state(office)
}
