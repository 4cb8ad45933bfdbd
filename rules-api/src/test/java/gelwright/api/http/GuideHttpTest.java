package gelwright.api.http;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The session of the guide: with curl where there is one, else its calls without it. */
@DisplayName("docs/guide/http.md")
final class GuideHttpTest {
  private static final Pattern BLOCK = Pattern.compile("(?ms)^```sh\\R(.*?)^```");
  private static final Pattern WORD = Pattern.compile("'([^']*)'|(\\S+)");
  private static final String HERE = "http://127.0.0.1:8080";
  private static final boolean CURL = hasCurl();

  private static Rig rig;

  @BeforeAll
  static void start() {
    rig = Rig.start();
  }

  @AfterAll
  static void stop() {
    rig.close();
  }

  private static boolean hasCurl() {
    try {
      return new ProcessBuilder("curl", "--version").start().waitFor() == 0;
    } catch (IOException none) {
      return false;
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      return false;
    }
  }

  static List<String> lines() throws IOException {
    List<String> lines = new ArrayList<>();
    Matcher block = BLOCK.matcher(Files.readString(Rig.ROOT.resolve("docs/guide/http.md")));
    while (block.find()) {
      block.group(1).lines().forEach(lines::add);
    }
    assertTrue(lines.size() > 15, "the guide has a session");
    return lines;
  }

  private record Answer(int status, String body) {}

  @ParameterizedTest(name = "{0}")
  @MethodSource("lines")
  void answers(String line) throws Exception {
    int comment = line.lastIndexOf(" # ");
    String[] expected = line.substring(comment + 3).split(" ", 2);
    List<String> words = new ArrayList<>();
    Matcher word = WORD.matcher(line.substring(0, comment));
    while (word.find()) {
      String text = word.group(1) == null ? word.group(2) : word.group(1);
      words.add(text.replace(HERE, "http://127.0.0.1:" + rig.port()));
    }
    assertEquals("curl", words.get(0));
    Answer answer = CURL ? curl(words) : call(words);
    assertEquals(Integer.parseInt(expected[0]), answer.status(), answer.body());
    assertTrue(answer.body().contains(expected[1]), answer.body());
  }

  private static Answer curl(List<String> words) throws Exception {
    List<String> command = new ArrayList<>(words);
    command.add("--max-time");
    command.add("60");
    command.add("-w");
    command.add("\\n%{http_code}");
    Process process =
        new ProcessBuilder(command).directory(Rig.ROOT.toFile()).redirectErrorStream(true).start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertTrue(process.waitFor(1, TimeUnit.MINUTES));
    int last = said.lastIndexOf('\n');
    return new Answer(Integer.parseInt(said.substring(last + 1)), said.substring(0, last));
  }

  private static Answer call(List<String> words) throws Exception {
    HttpRequest.Builder request = HttpRequest.newBuilder();
    String method = "GET";
    byte[] body = {};
    for (int i = 1; i < words.size(); i++) {
      switch (words.get(i)) {
        case "-s" -> {}
        case "-X" -> method = words.get(++i);
        case "-H" -> {
          String[] header = words.get(++i).split(": ", 2);
          request.header(header[0], header[1]);
        }
        case "-d" -> body = words.get(++i).getBytes(StandardCharsets.UTF_8);
        case "--data-binary" ->
            body = Files.readAllBytes(Rig.ROOT.resolve(Path.of(words.get(++i).substring(1))));
        default -> request.uri(URI.create(words.get(i)));
      }
    }
    HttpResponse<String> answer =
        HttpClient.newHttpClient()
            .send(
                request.method(method, HttpRequest.BodyPublishers.ofByteArray(body)).build(),
                HttpResponse.BodyHandlers.ofString());
    return new Answer(answer.statusCode(), answer.body());
  }
}
