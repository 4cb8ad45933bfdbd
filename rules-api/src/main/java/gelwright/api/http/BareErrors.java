package gelwright.api.http;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.OptionalInt;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.server.handler.ErrorHandler;
import org.eclipse.jetty.util.Callback;

/** What the web server refuses before a route is reached, as problems like any other. */
final class BareErrors extends ErrorHandler {
  @Override
  public boolean errorPageForMethod(String method) {
    return true;
  }

  @Override
  public boolean handle(Request request, Response response, Callback callback) {
    int status = response.getStatus();
    if (status >= 500 && request.getAttribute(ERROR_EXCEPTION) instanceof IOException) {
      // A request that breaks off before its end is no fault of the service.
      status = 400;
      response.setStatus(status);
    }
    ProblemType type = ProblemType.ofStatus(status);
    Service.SECURITY.forEach((name, value) -> response.getHeaders().put(name, value));
    response.getHeaders().put(HttpHeader.CONTENT_TYPE, MediaType.PROBLEM.header());
    response.getHeaders().put(HttpHeader.CACHE_CONTROL, "no-store");
    if (status == 503) {
      response.getHeaders().put(HttpHeader.RETRY_AFTER, "5");
    }
    byte[] body = Json.problem(type, status, type.meaning(), List.of(), OptionalInt.empty());
    response.write(true, ByteBuffer.wrap(body), callback);
    return true;
  }
}
