// Judges PDFs by the machine rules of PDF/UA-1 (ISO 14289-1): one line for each rule that a file fails.
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;

import java.io.File;
import java.util.Map;
import java.util.TreeMap;

public class UaCheck {
    public static void main(String[] files) throws Exception {
        VeraGreenfieldFoundryProvider.initialise();
        PDFAFlavour flavour = PDFAFlavour.PDFUA_1;
        for (String file : files) {
            try (PDFAParser parser = Foundries.defaultInstance().createParser(new File(file), flavour)) {
                PDFAValidator validator = Foundries.defaultInstance().createValidator(flavour, false);
                ValidationResult result = validator.validate(parser);
                Map<String, String> failed = new TreeMap<>();
                for (TestAssertion each : result.getTestAssertions()) {
                    if (each.getStatus() == TestAssertion.Status.FAILED) {
                        String rule = each.getRuleId().getClause() + "-" + each.getRuleId().getTestNumber();
                        failed.putIfAbsent(rule, each.getMessage());
                    }
                }
                System.out.println("judged\t" + file + "\t" + result.getValidationProfile().getRules().size());
                failed.forEach((rule, why) -> System.out.println("failed\t" + file + "\t" + rule + ": " + why));
            }
        }
    }
}
