//! Why a request is not answered as asked.

use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};

/// Why not.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Refused {
    /// There is no such thing.
    NotFound,
    /// Asked in a way that nobody on a page of ours can: the reason is for who looks at the connection.
    Forbidden(&'static str),
    /// What was sent makes no sense, in words for the reader.
    Unfit(String),
    /// It does not go together with what others did, in words.
    Conflict(String),
    /// Too much at once.
    Busy(String),
    /// Our own mistake.
    Broken(&'static str),
}

impl IntoResponse for Refused {
    fn into_response(self) -> Response {
        let (status, text) = match self {
            Refused::NotFound => (StatusCode::NOT_FOUND, String::from("There is no such thing.")),
            Refused::Forbidden(why) => (StatusCode::FORBIDDEN, String::from(why)),
            Refused::Unfit(why) => (StatusCode::UNPROCESSABLE_ENTITY, why),
            Refused::Conflict(why) => (StatusCode::CONFLICT, why),
            Refused::Busy(why) => (StatusCode::TOO_MANY_REQUESTS, why),
            Refused::Broken(why) => (StatusCode::INTERNAL_SERVER_ERROR, String::from(why)),
        };
        (status, text).into_response()
    }
}
