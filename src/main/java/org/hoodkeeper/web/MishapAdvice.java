package org.hoodkeeper.web;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Objects;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.springframework.beans.TypeMismatchException;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.dao.OptimisticLockingFailureException;
import org.springframework.dao.PessimisticLockingFailureException;
import org.springframework.dao.TransientDataAccessResourceException;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.HttpStatusCode;
import org.springframework.http.converter.HttpMessageNotReadableException;
import org.springframework.jdbc.CannotGetJdbcConnectionException;
import org.springframework.transaction.CannotCreateTransactionException;
import org.springframework.web.ErrorResponse;
import org.springframework.web.ErrorResponseException;
import org.springframework.web.HttpMediaTypeException;
import org.springframework.web.HttpRequestMethodNotSupportedException;
import org.springframework.web.bind.MethodArgumentNotValidException;
import org.springframework.web.bind.ServletRequestBindingException;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.context.request.async.AsyncRequestTimeoutException;
import org.springframework.web.method.annotation.HandlerMethodValidationException;
import org.springframework.web.method.annotation.MethodArgumentTypeMismatchException;
import org.springframework.web.multipart.MaxUploadSizeExceededException;
import org.springframework.web.multipart.MultipartException;
import org.springframework.web.servlet.NoHandlerFoundException;
import org.springframework.web.servlet.resource.NoResourceFoundException;

/**
 * Catches what no page caught. Ahead of the framework's own problem answers, which would send JSON to a browser.
 * What is not named here is a fault of the service and reaches {@link ErrorPages}.
 */
@ControllerAdvice
@Order(Ordered.HIGHEST_PRECEDENCE)
class MishapAdvice {

    private final Mishaps mishaps;
    private final Words words;

    MishapAdvice(Mishaps mishaps, Words words) {
        this.mishaps = mishaps;
        this.words = words;
    }

    @ExceptionHandler
    Object notFound(NotFound nothing, HttpServletRequest request) {
        return answer(request, HttpStatus.NOT_FOUND, nothing);
    }

    @ExceptionHandler
    Object refused(Refused refused, HttpServletRequest request) {
        return answer(request, HttpStatus.UNPROCESSABLE_CONTENT, refused);
    }

    /** In a path it names a thing that is not there; elsewhere it is a question nobody can read. */
    @ExceptionHandler
    Object unreadable(TypeMismatchException mismatch, HttpServletRequest request) {
        boolean inPath = mismatch instanceof MethodArgumentTypeMismatchException argument
                && argument.getParameter().hasParameterAnnotation(PathVariable.class);
        return answer(request, inPath ? HttpStatus.NOT_FOUND : HttpStatus.BAD_REQUEST);
    }

    @ExceptionHandler({
        NoResourceFoundException.class,
        NoHandlerFoundException.class,
        HttpRequestMethodNotSupportedException.class,
        HttpMediaTypeException.class,
        ServletRequestBindingException.class,
        MethodArgumentNotValidException.class,
        HandlerMethodValidationException.class,
        MaxUploadSizeExceededException.class,
        AsyncRequestTimeoutException.class,
        ErrorResponseException.class
    })
    Object standard(Exception standard, HttpServletRequest request) {
        ErrorResponse response = (ErrorResponse) standard;
        return answer(request, response.getStatusCode(), response.getHeaders());
    }

    @ExceptionHandler({HttpMessageNotReadableException.class, MultipartException.class})
    Object notUnderstood(Exception unreadable, HttpServletRequest request) {
        return answer(request, HttpStatus.BAD_REQUEST);
    }

    @ExceptionHandler({
        OptimisticLockingFailureException.class,
        PessimisticLockingFailureException.class,
        DuplicateKeyException.class
    })
    Object changedMeanwhile(Exception lost, HttpServletRequest request) {
        return answer(request, HttpStatus.CONFLICT);
    }

    @ExceptionHandler({
        CannotCreateTransactionException.class,
        CannotGetJdbcConnectionException.class,
        TransientDataAccessResourceException.class
    })
    Object notReady(Exception unreachable, HttpServletRequest request) {
        return answer(request, HttpStatus.SERVICE_UNAVAILABLE);
    }

    private Object answer(HttpServletRequest request, HttpStatus status, Refused refused) {
        return mishaps.answer(
                request, path(request), status, refused.code(), words.refusal(refused), HttpHeaders.EMPTY);
    }

    private Object answer(HttpServletRequest request, HttpStatusCode status) {
        return answer(request, status, HttpHeaders.EMPTY);
    }

    private Object answer(HttpServletRequest request, HttpStatusCode status, HttpHeaders headers) {
        return mishaps.answer(request, path(request), status, null, null, headers);
    }

    private static String path(HttpServletRequest request) {
        return Objects.requireNonNull(request.getRequestURI())
                .substring(request.getContextPath().length());
    }
}
