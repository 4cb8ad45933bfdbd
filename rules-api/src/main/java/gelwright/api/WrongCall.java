package gelwright.api;

import gelwright.problem.Spelling;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import picocli.CommandLine.MissingParameterException;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.OverwrittenOptionException;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** What is wrong with a call, in plain words. */
final class WrongCall {
  private WrongCall() {}

  static String words(ParameterException problem) {
    CommandSpec command = problem.getCommandLine().getCommandSpec();
    if (problem instanceof UnmatchedArgumentException unmatched
        && !unmatched.getUnmatched().isEmpty()) {
      return unmatched(unmatched.getUnmatched().get(0), command);
    }
    if (problem instanceof MissingParameterException missing && !missing.getMissing().isEmpty()) {
      ArgSpec first = missing.getMissing().get(0);
      return first.isOption()
          ? name(first) + " needs a value: " + first.paramLabel() + "."
          : first.paramLabel() + " is missing.";
    }
    if (problem instanceof OverwrittenOptionException twice) {
      return name(twice.getOverwritten()) + " is given twice.";
    }
    ArgSpec argument = problem.getArgSpec();
    if (argument == null) {
      return String.valueOf(problem.getMessage());
    }
    return problem.getValue() == null
        ? missingValue(problem, argument)
        : value(argument, problem.getValue());
  }

  private static String missingValue(ParameterException problem, ArgSpec argument) {
    return argument.isOption()
        ? name(argument) + " needs a value: " + argument.paramLabel() + "."
        : String.valueOf(problem.getMessage());
  }

  private static String unmatched(String word, CommandSpec command) {
    boolean option = word.startsWith("-") && word.length() > 1;
    List<String> known = new ArrayList<>();
    if (option) {
      command.options().forEach(one -> known.addAll(Arrays.asList(one.names())));
    } else {
      known.addAll(command.subcommands().keySet());
    }
    String bare = option && word.contains("=") ? word.substring(0, word.indexOf('=')) : word;
    String said =
        option
            ? "There is no option " + bare + "."
            : command.subcommands().isEmpty()
                ? "There is a word too many: " + bare + "."
                : "There is no command " + bare + ".";
    return (said + " " + Spelling.hint(bare, known)).strip();
  }

  private static String value(ArgSpec argument, String value) {
    Class<?> type =
        argument.typeInfo().isMultiValue()
            ? argument.typeInfo().getAuxiliaryTypes()[0]
            : argument.auxiliaryTypes().length > 0 ? argument.auxiliaryTypes()[0] : argument.type();
    String said = name(argument) + " does not take \"" + value + "\"";
    if (type.isEnum()) {
      String choices =
          Arrays.stream(type.getEnumConstants())
              .map(one -> one.toString().toLowerCase(Locale.ROOT))
              .collect(Collectors.joining(", "));
      return said + "; it takes " + choices + ".";
    }
    return type == LocalDate.class ? said + "; it takes a day such as 2026-11-25." : said + ".";
  }

  private static String name(ArgSpec argument) {
    return argument instanceof OptionSpec option ? option.longestName() : argument.paramLabel();
  }
}
